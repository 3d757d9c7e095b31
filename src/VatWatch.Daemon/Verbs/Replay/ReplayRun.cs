using VatWatch.Calibration;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Replay;
using VatWatch.Probes.Recorded;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary>Reads the log once, line by line, and takes it through one watch, or two side by side.</summary>
internal sealed class ReplayRun(ReplayRequest request, VerbConsole console)
{
    /// <summary>Bad lines told one by one; more are counted.</summary>
    private const int FaultsTold = 20;

    private long _taken;
    private long _faults;

    public int Go(ReplaySetting first, ReplaySetting? second, CalibrationCache calibrations)
    {
        if (!TryEntries(first.Plan.Alarms.ReadyBy?.Zone ?? first.Zone, out var entries))
        {
            return ExitCode.Failure;
        }

        using var stream = new FileStream(request.File, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, 1 << 16, FileOptions.SequentialScan);
        using var text = new StreamReader(stream);
        using var folder = request.Out is { } path ? ReplayFolder.Create(path, first) : null;
        var told = new ReplayAlarms(second is null ? console.Out : TextWriter.Null, request.Json, first, folder);
        var watch = new ReplayWatch(first.Plan, first.Units, calibrations, told);
        var other = new ReplayAlarms(TextWriter.Null, request.Json, first, null);
        var beside = second is null ? null : new ReplayWatch(second.Plan, second.Units, calibrations, other);
        watch.Take(entries);
        beside?.Take(entries);
        if (!Through(text, stream, watch, beside))
        {
            return ExitCode.Failure;
        }

        if (_taken == 0)
        {
            return console.Fail(ExitCode.Failure, $"'{request.File}' holds no reading of vat '{request.Vat}'.");
        }

        folder?.Finish(console);
        if (second is not null)
        {
            ReplayComparison.Write(first, told.Raised, second, other.Raised, request.Json, console.Out);
        }
        else if (!request.Json)
        {
            console.Out.WriteLine($"{_taken} readings from {WallTime.Clock(told.First!.Value, first.Zone)} to {WallTime.Text(told.Last!.Value, first.Zone)}; {DisplayUnits.Count(told.Count, "alarm change")}, {DisplayUnits.Count(told.Raised.Count, "alarm")} raised.");
        }

        return ExitCode.Success;
    }

    /// <summary>Reads the entries; false when they cannot be, or not strictly.</summary>
    private bool TryEntries(TimeZoneInfo zone, out IReadOnlyList<SessionEntry> entries)
    {
        entries = [];
        if (request.Entries is not { } file)
        {
            return true;
        }

        try
        {
            using var text = new StreamReader(file);
            entries = new RecordedEntries(zone).Read(text, fault =>
            {
                if (++_faults <= FaultsTold)
                {
                    console.Error.WriteLine($"{file}: {fault}");
                }
            });
            return _faults == 0 || !request.Strict;
        }
        catch (RecordedLogException e)
        {
            console.Fail(ExitCode.Failure, $"'{file}': {e.Message}.");
            return false;
        }
    }

    private bool Through(StreamReader text, FileStream stream, ReplayWatch watch, ReplayWatch? beside)
    {
        using var progress = new ProgressLine(console);
        foreach (var row in RecordedLog.Read(text, fault => Tell(fault, progress)))
        {
            if (_faults > 0 && request.Strict)
            {
                return false;
            }

            if (watch.Take(row) is { } whyNot)
            {
                Tell(new RecordedLogFault(row.Line, whyNot), progress);
                continue;
            }

            beside?.Take(row);
            if ((++_taken & 0xFFF) == 0)
            {
                progress.Show($"replaying {Path.GetFileName(request.File)}", stream.Position, stream.Length);
            }
        }

        watch.End();
        beside?.End();
        progress.Clear();
        if (_faults > FaultsTold)
        {
            console.Error.WriteLine($"{request.File}: {_faults - FaultsTold} more lines were left out.");
        }

        return _faults == 0 || !request.Strict;
    }

    private void Tell(RecordedLogFault fault, ProgressLine progress)
    {
        if (++_faults <= FaultsTold)
        {
            progress.Clear();
            console.Error.WriteLine($"{request.File}: {fault}");
        }
    }
}

/// <summary>What <c>vatwatch replay</c> was asked for.</summary>
internal sealed record ReplayRequest(string File, string Vat, string? Config, string? Against, string? Out, string? Data, bool Strict, bool Json)
{
    /// <summary>File of what the log book held; null for none.</summary>
    public string? Entries { get; init; }
}

/// <summary>One configuration as a replay uses it.</summary>
internal sealed record ReplaySetting(string Name, VatPlan Plan, DisplayUnits Units)
{
    public TimeZoneInfo Zone => Plan.Alarms.Zone;
}
