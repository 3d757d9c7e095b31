using System.CommandLine;
using VatWatch.Charts;
using VatWatch.Charts.Compare;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline.Configuration;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary><c>vatwatch compare</c>: sessions laid over each other. Reads the store; the daemon may be running.</summary>
internal static class CompareVerb
{
    public static Command Create(VerbConsole console)
    {
        var sessions = new Option<string[]>("--session") { Description = "A session as VAT/ID, such as madder-lane/2026-03-01; given two to four times.", HelpName = "VAT/ID", Required = true };
        var output = new Option<string>("--out") { Description = "File to write; the ending says what: .html, .pdf, .png, .svg.", HelpName = "FILE", Required = true };
        var store = new ConfiguredStoreOptions(console);
        var command = new Command("compare", "Lay sessions over each other by the time since their first dip, and say what differs.") { sessions, output, store };
        command.SetAction(parsed => RunAsync(parsed.GetValue(sessions)!, parsed.GetValue(output)!, store.Of(parsed), console));
        return command;
    }

    private static async Task<int> RunAsync(string[] wanted, string file, ConfiguredStore store, VerbConsole console)
    {
        if (wanted.Length < 2 || wanted.Length > SessionComparison.Most)
        {
            return console.Fail(ExitCode.WrongUsage, $"--session is given {wanted.Length} times; wanted 2 to {SessionComparison.Most}.");
        }

        return await ReportFile.WriteAsync(file, console, () =>
        {
            using var reader = StoreReader.OpenFolder(store.Folder);
            var records = wanted.Select(one => Find(reader, store.Watch, one)).ToList();
            new SessionComparison(records).Chart.Write(file, new ReportOptions { Zone = store.Watch.Zone });
            console.Out.WriteLine($"{file}: {string.Join(", ", wanted)}.");
            return ExitCode.Success;
        });
    }

    private static VatRecord Find(StoreReader reader, WatchConfiguration watch, string wanted)
    {
        var parts = wanted.Split('/');
        var vat = watch.Vats.FirstOrDefault(vat => vat.Definition.Id.Value == parts[0])?.Definition;
        var record = vat is not null && parts.Length == 2 && SessionId.TryParse(parts[1], out var id) ? StoredRecord.OfSession(reader, vat, watch.Units, id) : null;
        return record ?? throw new VerbEndedException(ExitCode.WrongUsage, $"--session is '{wanted}'; {(vat is null || parts.Length != 2
            ? $"wanted VAT/ID with one of {string.Join(", ", watch.Vats.Select(vat => $"'{vat.Definition.Id}'"))}"
            : KnownSessions.Of(reader, vat))}.");
    }
}
