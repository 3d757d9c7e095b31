using System.CommandLine;
using VatWatch.Charts.Life;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Report;

/// <summary><c>vatwatch life</c>: a vat over months. Reads the store; the daemon may be running.</summary>
internal static class LifeVerb
{
    public static Command Create(VerbConsole console)
    {
        var vat = new Option<string>("--vat") { Description = "The vat.", HelpName = "ID", Required = true };
        var output = new Option<string>("--out") { Description = "File to write; the ending says what: .html, .pdf, .png, .svg.", HelpName = "FILE", Required = true };
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var command = new Command("life", "Show a vat over months: its condition at each session, what it was fed, and its electrodes.") { vat, output, config, data };
        command.SetAction(parsed => RunAsync(parsed.GetValue(vat)!, parsed.GetValue(output)!, parsed.GetValue(config), parsed.GetValue(data), console));
        return command;
    }

    private static async Task<int> RunAsync(string wanted, string file, string? path, string? data, VerbConsole console)
    {
        if (DaemonConfiguration.Load(path, console.Error) is not { } configuration)
        {
            return ExitCode.BadConfiguration;
        }

        if (configuration.Watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == wanted)?.Definition is not { } vat)
        {
            var known = string.Join(", ", configuration.Watch.Vats.Select(one => $"'{one.Definition.Id}'"));
            return console.Fail(ExitCode.WrongUsage, $"--vat is '{wanted}'; wanted one of {known}.");
        }

        return await ReportFile.WriteAsync(file, console, () =>
        {
            using var reader = StoreReader.OpenFolder(data ?? configuration.Watch.DataFolder);
            var life = VatLife.Load(reader, vat, configuration.Watch.Units);
            life.Write(file, new ReportOptions { Zone = configuration.Watch.Zone });
            console.Out.WriteLine($"{file}: {vat.Name}, {life.Sessions.Count} sessions, {life.Calibrations.Count} calibrations.");
            return ExitCode.Success;
        });
    }
}
