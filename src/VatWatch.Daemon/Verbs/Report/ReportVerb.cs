using System.CommandLine;
using VatWatch.Charts.Reports;
using VatWatch.Charts;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary><c>vatwatch report</c>: the report of a session or of a stretch of time. Reads the store; the daemon may be running.</summary>
internal static class ReportVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new Option<string?>("--vat") { Description = "The vat; default for readings: all, for a chart: the only one.", HelpName = "ID" };
        var from = new Option<string?>("--from") { Description = "Start, such as 2026-03-01T20:00Z or 2026-03-01 20:00 (time of the site); default: the first reading.", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End; default: the last reading.", HelpName = "TIME" };
        var session = new Option<string?>("--session") { Description = "One session of the log book, such as 2026-03-01, with the night before it, in place of --from and --to.", HelpName = "ID" };
        var output = new Option<string>("--out") { Description = "File to write; the ending says what: .png, .svg, .html, .pdf; .csv, .parquet for the readings.", HelpName = "FILE", Required = true };
        var store = new ConfiguredStoreOptions(console);
        var command = new Command("report", "Write the report of a session or of a stretch of time, its chart, or its readings.") { vat, session, from, to, output, store };
        command.SetAction((parsed, cancel) => RunAsync(
            new Request(parsed.GetValue(vat), parsed.GetValue(session), parsed.GetValue(from), parsed.GetValue(to), parsed.GetValue(output)!),
            () => store.Of(parsed),
            console,
            cancel));
        return command;
    }

    private static async Task<int> RunAsync(Request request, Func<ConfiguredStore> open, VerbConsole console, CancellationToken cancel)
    {
        var prepared = ReadingExport.Knows(request.File) ? Task.CompletedTask : Task.Run(() => new ReportWriter(new ReportOptions()).Prepare(request.File), cancel);
        var store = open();
        var watch = store.Watch;
        var isExport = ReadingExport.Knows(request.File);
        var vat = request.Vat is null && watch.Vats.Count == 1 ? watch.Vats[0]
            : request.Vat is null && isExport ? null
            : KnownVat.PlanOf(watch, request.Vat);

        if (request.Session is not null && (request.From ?? request.To) is not null)
        {
            return console.Fail(ExitCode.WrongUsage, "--session was given together with --from or --to; wanted either the session or the times.");
        }

        var (from, to) = TimeText.ReadSpan(request.From, request.To, watch.Zone);
        if (!isExport && !ReportWriter.Knows(request.File))
        {
            return console.Fail(ExitCode.WrongUsage, $"--out is '{request.File}'; wanted .parquet, {ReportWriter.FormatsText} at its end; nothing was written.");
        }

        if (isExport)
        {
            return await ReportFile.WriteAsync(request.File, console, () => ExportAsync(request, vat?.Definition, store.Folder, from, to, console, cancel));
        }

        return await ReportFile.WriteAsync(request.File, console, async () =>
        {
            using var reader = StoreReader.OpenFolder(store.Folder);
            var record = Read(reader, request, vat!.Definition, watch.Units, from, to);
            await prepared;
            new ReportWriter(new ReportOptions { Zone = watch.Zone }).Write(request.File.EndsWith(".html", StringComparison.OrdinalIgnoreCase) || request.File.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase) ? ReportPhotos.AddTo(record, reader) : record, request.File);
            var what = record.SummedUpBy is null ? $"{record.Measurements.Count} readings" : "summed up in columns, because the span is long";
            console.Out.WriteLine($"{request.File}: {record.Vat.Name}, {WallTime.Text(record.From, watch.Zone)} to {WallTime.Text(record.To, watch.Zone)}, {what}.");
            return ExitCode.Success;
        });
    }

    private static async Task<int> ExportAsync(
        Request request, VatDefinition? vat, string folder, DateTimeOffset? from, DateTimeOffset? to, VerbConsole console, CancellationToken cancel)
    {
        if (request.Session is { } name)
        {
            if (vat is null)
            {
                return console.Fail(ExitCode.WrongUsage, "--session was given without --vat; wanted the vat whose session it is.");
            }

            (from, to) = SpanOf(name, vat, folder);
        }

        return await new ReadingExport(console).WriteAsync(folder, request.Vat is null ? null : vat!.Id, from, to, request.File, cancel);
    }

    private static VatRecord Read(StoreReader reader, Request request, VatDefinition vat, DisplayUnits units, DateTimeOffset? from, DateTimeOffset? to)
    {
        if (request.Session is { } name)
        {
            return (SessionId.TryParse(name, out var id) ? StoredRecord.OfSession(reader, vat, units, id) : null) ?? throw NoSession(name, reader, vat);
        }

        if (reader.Span(vat.Id) is not { } span)
        {
            throw new VerbEndedException(ExitCode.Failure, $"the store holds no reading of vat '{vat.Id}'.");
        }

        var (start, end) = (from ?? span.First, to ?? span.Last);
        return end >= start
            ? StoredRecord.Between(reader, vat, units, start, end)
            : throw new VerbEndedException(ExitCode.WrongUsage, $"--to is {end:u}, before --from {start:u}; wanted a later time.");
    }

    private static (DateTimeOffset From, DateTimeOffset To) SpanOf(string name, VatDefinition vat, string folder)
    {
        using var reader = StoreReader.OpenFolder(folder);
        return SessionId.TryParse(name, out var id) && SessionTable.Find(reader, vat.Id, id) is { } session
            ? session.Span(reader.Span(vat.Id)?.Last ?? session.Started.Utc)
            : throw NoSession(name, reader, vat);
    }

    private static VerbEndedException NoSession(string name, StoreReader reader, VatDefinition vat) => new(ExitCode.WrongUsage, $"--session is '{name}'; {KnownSessions.Of(reader, vat)}.");

    private sealed record Request(string? Vat, string? Session, string? From, string? To, string File);
}

/// <summary>Names the sessions of a vat to somebody who asked for one that is not there.</summary>
internal static class KnownSessions
{
    private const int Told = 10;

    /// <summary>For example "wanted one of '2026-03-10', '2026-03-03'", as a clause.</summary>
    public static string Of(StoreReader reader, VatDefinition vat)
    {
        var newest = SessionTable.Newest(reader, vat.Id, Told);
        return newest.Count == 0
            ? $"the log book of vat '{vat.Id}' holds no session"
            : $"wanted one of {string.Join(", ", newest.Select(session => $"'{session.Id}'"))}";
    }
}
