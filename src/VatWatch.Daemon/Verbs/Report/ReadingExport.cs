using System.Text;
using VatWatch.Charts.Export;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary>Writes readings of any span to a table for other programs, in constant memory; says how far it is when somebody looks on.</summary>
internal sealed class ReadingExport(VerbConsole console)
{
    /// <summary>Some ten times a second it is looked how far it has come and whether to stop.</summary>
    private const int ReadingsBetweenLooks = 50_000;

    /// <summary>Whether a file of this name is a table of readings.</summary>
    public static bool Knows(string file) => Path.GetExtension(file).ToLowerInvariant() is ".csv" or ".parquet";

    /// <summary>Writes readings from <paramref name="from"/> to <paramref name="to"/>, both included, of one vat or of all; exit code of the verb.</summary>
    public async Task<int> WriteAsync(string folder, VatId? vat, DateTimeOffset? from, DateTimeOffset? to, string file, CancellationToken cancel)
    {
        var (start, end) = (from ?? DateTimeOffset.MinValue, to ?? DateTimeOffset.MaxValue);
        if (end < start)
        {
            return console.Fail(ExitCode.WrongUsage, $"--to is {end:u}, before --from {start:u}; wanted a later time.");
        }

        using var reader = StoreReader.OpenFolder(folder);
        var upTo = end < DateTimeOffset.MaxValue ? end.AddMicroseconds(1) : end;
        var rows = vat is { } one ? reader.Measurements(one, start, upTo) : reader.Rows(start, upTo).Select(row => row.Measurement);
        var count = await WriteFileAsync(Counted(rows, reader.LastUtc() is { } newest && newest < end ? newest : end, cancel), file, cancel);
        if (count == 0)
        {
            File.Delete(file);
            return console.Fail(ExitCode.Failure, $"the store in '{folder}' holds no reading of {(vat is { } name ? $"vat '{name}'" : "any vat")} in that time; nothing was written.");
        }

        console.Out.WriteLine($"{file}: {count} readings.");
        return ExitCode.Success;
    }

    private static async Task<long> WriteFileAsync(IEnumerable<Measurement> rows, string file, CancellationToken cancel)
    {
        var (part, count) = ($"{file}.part", 0L);
        try
        {
            using (var stream = new FileStream(part, FileMode.Create, FileAccess.ReadWrite, FileShare.None))
            {
                var counted = rows.Select(row =>
                {
                    count++;
                    return row;
                });
                if (Path.GetExtension(file).Equals(".parquet", StringComparison.OrdinalIgnoreCase))
                {
                    await MeasurementParquet.WriteAsync(counted, stream, cancel);
                }
                else
                {
                    using var writer = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), bufferSize: 64 * 1024, leaveOpen: true);
                    MeasurementCsv.Write(counted, writer);
                }
            }

            File.Move(part, file, overwrite: true);
            return count;
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }

    private IEnumerable<Measurement> Counted(IEnumerable<Measurement> rows, DateTimeOffset last, CancellationToken cancel)
    {
        using var progress = new ProgressLine(console);
        DateTimeOffset? first = null;
        var count = 0L;
        foreach (var row in rows)
        {
            first ??= row.Stamp.Utc;
            if (++count % ReadingsBetweenLooks == 0)
            {
                cancel.ThrowIfCancellationRequested();
                progress.Show("Writing readings", (long)(row.Stamp.Utc - first.Value).TotalSeconds, Math.Max(1, (long)(last - first.Value).TotalSeconds));
            }

            yield return row;
        }
    }
}
