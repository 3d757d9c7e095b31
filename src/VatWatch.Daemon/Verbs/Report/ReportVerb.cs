using System.CommandLine;
using VatWatch.Charts.Reports;
using VatWatch.Charts;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
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
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var command = new Command("report", "Write the report of a session or of a stretch of time, its chart, or its readings.") { vat, session, from, to, output, config, data };
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
        var prepared = ReadingExport.Knows(request.File) ? Task.CompletedTask : Task.Run(() => new ReportWriter(new ReportOptions()).Prepare(request.File), cancel);
        if (DaemonConfiguration.Load(path, console.Error) is not { } configuration)
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

        if (!TimeText.TryReadSpan(request.From, request.To, configuration.Watch.Zone, console, out var from, out var to))
        {
            return ExitCode.WrongUsage;
        }

        if (!isExport && !ReportWriter.Knows(request.File))
        {
            return console.Fail(ExitCode.WrongUsage, $"--out is '{request.File}'; wanted .parquet, {ReportWriter.FormatsText} at its end; nothing was written.");
        }

        var folder = data ?? configuration.Watch.DataFolder;
        if (isExport)
        {
            return await ReportFile.WriteAsync(request.File, console, () => ExportAsync(request, vat?.Definition, folder, from, to, console, cancel));
        }

        return await ReportFile.WriteAsync(request.File, console, async () =>
        {
            using var reader = StoreReader.OpenFolder(folder);
            if (Read(reader, request, vat!.Definition, configuration.Watch.Units, from, to, console, out var code) is not { } record)
            {
                return code;
            }

            await prepared;
            new ReportWriter(new ReportOptions { Zone = configuration.Watch.Zone }).Write(request.File.EndsWith(".html", StringComparison.OrdinalIgnoreCase) || request.File.EndsWith(".pdf", StringComparison.OrdinalIgnoreCase) ? ReportPhotos.AddTo(record, reader) : record, request.File);
            var what = record.SummedUpBy is null ? $"{record.Measurements.Count} readings" : "summed up in columns, because the span is long";
            console.Out.WriteLine($"{request.File}: {record.Vat.Name}, {WallTime.Text(record.From, configuration.Watch.Zone)} to {WallTime.Text(record.To, configuration.Watch.Zone)}, {what}.");
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

            if (SpanOf(name, vat, folder, console) is not { } span)
            {
                return ExitCode.WrongUsage;
            }

            (from, to) = span;
        }

        return await new ReadingExport(console).WriteAsync(folder, request.Vat is null ? null : vat!.Id, from, to, request.File, cancel);
    }

    private static VatRecord? Read(
        StoreReader reader, Request request, VatDefinition vat, DisplayUnits units, DateTimeOffset? from, DateTimeOffset? to, VerbConsole console, out int code)
    {
        code = ExitCode.WrongUsage;
        if (request.Session is { } name)
        {
            var told = SessionId.TryParse(name, out var id) ? StoredRecord.OfSession(reader, vat, units, id) : null;
            code = told is null ? console.Fail(code, $"--session is '{name}'; {KnownSessions.Of(reader, vat)}.") : ExitCode.Success;
            return told;
        }

        if (reader.Span(vat.Id) is not { } span)
        {
            code = console.Fail(ExitCode.Failure, $"the store holds no reading of vat '{vat.Id}'.");
            return null;
        }

        var (start, end) = (from ?? span.First, to ?? span.Last);
        if (end >= start)
        {
            return StoredRecord.Between(reader, vat, units, start, end);
        }

        code = console.Fail(code, $"--to is {end:u}, before --from {start:u}; wanted a later time.");
        return null;
    }

    /// <summary>When a session was; null, and said so, when there is none of that name.</summary>
    private static (DateTimeOffset From, DateTimeOffset To)? SpanOf(string name, VatDefinition vat, string folder, VerbConsole console)
    {
        using var reader = StoreReader.OpenFolder(folder);
        if (SessionId.TryParse(name, out var id) && SessionTable.Find(reader, vat.Id, id) is { } session)
        {
            return session.Span(reader.Span(vat.Id)?.Last ?? session.Started.Utc);
        }

        console.Fail(ExitCode.WrongUsage, $"--session is '{name}'; {KnownSessions.Of(reader, vat)}.");
        return null;
    }

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
