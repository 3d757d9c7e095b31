using System.CommandLine;
using System.Globalization;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Wiring;
using VatWatch.Sessions;
using VatWatch.Store;
using VatWatch.Vats;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch report</c>: the chart or the figures of what was recorded. Reads the store; the daemon may be running.</summary>
internal static class ReportVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new Option<string?>("--vat") { Description = "The vat; default for readings: all, for a chart: the only one.", HelpName = "ID" };
        var from = new Option<string?>("--from") { Description = "Start, such as 2026-03-01T20:00Z or 2026-03-01 20:00 (local); default: the first reading.", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End; default: the last reading.", HelpName = "TIME" };
        var session = new Option<string?>("--session") { Description = "One session of the log book, such as 2026-03-01, in place of --from and --to.", HelpName = "ID" };
        var output = new Option<string>("--out") { Description = "File to write; the ending says what: .png, .svg, .html, .pdf; .csv, .parquet for the readings.", HelpName = "FILE", Required = true };
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var command = new Command("report", "Draw the chart of a vat, or write its measurements.") { vat, session, from, to, output, config, data };
        command.SetAction((parsed, cancel) => RunAsync(
            new Request(parsed.GetValue(vat), parsed.GetValue(session), parsed.GetValue(from), parsed.GetValue(to), parsed.GetValue(output)!),
            parsed.GetValue(config),
            parsed.GetValue(data),
            console,
            cancel));
        return command;
    }

    private static async Task<int> RunAsync(Request request, string? path, string? data, VerbConsole console, CancellationToken cancel)
    {
        if (DaemonConfiguration.Load(path, console) is not { } configuration)
        {
            return ExitCode.BadConfiguration;
        }

        var isExport = ReadingExport.Knows(request.File);
        var vat = configuration.Watch.Vats.FirstOrDefault(vat => vat.Definition.Id.Value == request.Vat)
            ?? (request.Vat is null && configuration.Watch.Vats.Count == 1 ? configuration.Watch.Vats[0] : null);
        if (vat is null && !(isExport && request.Vat is null))
        {
            var known = string.Join(", ", configuration.Watch.Vats.Select(vat => $"'{vat.Definition.Id}'"));
            return console.Fail(ExitCode.WrongUsage, request.Vat is null ? $"--vat is missing; wanted one of {known}." : $"--vat is '{request.Vat}'; wanted one of {known}.");
        }

        if (request.Session is not null && (request.From ?? request.To) is not null)
        {
            return console.Fail(ExitCode.WrongUsage, "--session was given together with --from or --to; wanted either the session or the times.");
        }

        if (!TimeText.TryRead(request.From, out var from) || !TimeText.TryRead(request.To, out var to))
        {
            var seen = TimeText.TryRead(request.From, out _) ? $"--to is '{request.To}'" : $"--from is '{request.From}'";
            return console.Fail(ExitCode.WrongUsage, $"{seen}; wanted {TimeText.Wanted}.");
        }

        if (!isExport && !ReportWriter.Knows(request.File))
        {
            return console.Fail(ExitCode.WrongUsage, $"--out is '{request.File}'; wanted .parquet, {ReportWriter.FormatsText} at its end; nothing was written.");
        }

        try
        {
            var folder = data ?? configuration.Watch.DataFolder;
            if (request.Session is { } name)
            {
                if (vat is null)
                {
                    return console.Fail(ExitCode.WrongUsage, "--session was given without --vat; wanted the vat whose session it is.");
                }

                if (SpanOf(name, vat.Definition.Id, folder, console) is not { } span)
                {
                    return ExitCode.WrongUsage;
                }

                (from, to) = span;
            }

            return isExport
                ? await new ReadingExport(console).WriteAsync(folder, request.Vat is null ? null : vat!.Definition.Id, from, to, request.File, cancel)
                : Write(vat!.Definition, configuration, folder, from, to, request, console);
        }
        catch (StoreUnavailableException e)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return console.Fail(ExitCode.Failure, $"'{request.File}' could not be written: {e.Message}");
        }
    }

    private static int Write(
        VatDefinition vat, DaemonConfiguration configuration, string folder, DateTimeOffset? from, DateTimeOffset? to, Request request, VerbConsole console)
    {
        using var reader = StoreReader.OpenFolder(folder);
        if (reader.Span(vat.Id) is not { } span)
        {
            return console.Fail(ExitCode.Failure, $"the store in '{folder}' holds no reading of vat '{vat.Id}'.");
        }

        var (start, end) = (from ?? span.First, to ?? span.Last);
        if (end < start)
        {
            return console.Fail(ExitCode.WrongUsage, $"--to is {end:u}, before --from {start:u}; wanted a later time.");
        }

        var record = StoredRecord.Read(reader, vat, configuration.Watch.Units, start, end);
        new ReportWriter(new ReportOptions { Zone = TimeZoneInfo.Local }).Write(record, request.File);
        console.Out.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{request.File}: {vat.Name}, {start:yyyy-MM-dd HH:mm} to {end:yyyy-MM-dd HH:mm} UTC, {record.Measurements.Count} readings."));
        return ExitCode.Success;
    }

    /// <summary>When a session was; null, and said so, when there is none of that name.</summary>
    private static (DateTimeOffset From, DateTimeOffset To)? SpanOf(string name, VatId vat, string folder, VerbConsole console)
    {
        using var reader = StoreReader.OpenFolder(folder);
        if (SessionId.TryParse(name, out var id) && SessionBook.Find(reader, vat, id) is { } session)
        {
            return session.Span(reader.Span(vat)?.Last ?? session.Started.Utc);
        }

        console.Fail(ExitCode.WrongUsage, $"--session is '{name}'; {SessionsWanted(reader, vat)}.");
        return null;
    }

    private static string SessionsWanted(StoreReader reader, VatId vat)
    {
        var known = SessionBook.Newest(reader, vat, 10);
        return known.Count > 0 ? $"wanted one of {string.Join(", ", known.Select(session => $"'{session.Id}'"))}" : $"the log book of vat '{vat}' holds no session";
    }

    private sealed record Request(string? Vat, string? Session, string? From, string? To, string File);
}
