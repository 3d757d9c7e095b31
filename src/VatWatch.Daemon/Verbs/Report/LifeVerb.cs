using System.CommandLine;
using VatWatch.Charts.Life;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary><c>vatwatch life</c>: a vat over months. Reads the store; the daemon may be running.</summary>
internal static class LifeVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new Option<string>("--vat") { Description = "The vat.", HelpName = "ID", Required = true };
        var output = new Option<string>("--out") { Description = "File to write; the ending says what: .html, .pdf, .png, .svg.", HelpName = "FILE", Required = true };
        var store = new ConfiguredStoreOptions(console);
        var command = new Command("life", "Show a vat over months: its condition at each session, what it was fed, and its electrodes.") { vat, output, store };
        command.SetAction(parsed => RunAsync(parsed.GetValue(vat)!, parsed.GetValue(output)!, store.Of(parsed), console));
        return command;
    }

    private static async Task<int> RunAsync(string wanted, string file, ConfiguredStore store, VerbConsole console)
    {
        var vat = KnownVat.Find(wanted, store);
        return await ReportFile.WriteAsync(file, console, () =>
        {
            using var reader = StoreReader.OpenFolder(vat.Folder);
            var life = VatLife.Load(reader, vat.Vat, vat.Units);
            life.Chart(vat.Zone).Write(file, new ReportOptions { Zone = vat.Zone });
            console.Out.WriteLine($"{file}: {vat.Vat.Name}, {life.Sessions.Count} sessions, {life.Calibrations.Count} calibrations.");
            return ExitCode.Success;
        });
    }
}
