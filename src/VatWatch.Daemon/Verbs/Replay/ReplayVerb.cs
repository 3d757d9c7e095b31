using System.CommandLine;
using VatWatch.Calibration;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Probes.Recorded;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary><c>vatwatch replay</c>: a recorded log through the whole watch, as fast as it goes. Needs no running daemon and disturbs none.</summary>
internal static class ReplayVerb
{
    public static Command Create(VerbConsole console)
    {
        var file = new Argument<string>("file") { Description = "Recorded log: comma-separated, first line time,probe,value; times ISO 8601, UTC unless they say otherwise.", HelpName = "FILE.csv" };
        var vat = new Option<string>("--vat") { Description = "The vat whose probes the log names.", HelpName = "ID", Required = true };
        var config = CommonOptions.Config();
        var against = new Option<string?>("--against") { Description = "A second configuration; says what its alarms would have done differently.", HelpName = "FILE" };
        var output = new Option<string?>("--out") { Description = "Folder for alarms.csv, conditions.csv and report.html; made when missing.", HelpName = "DIR" };
        var data = new Option<string?>("--data") { Description = "Folder of a store whose calibrations are used for bare electrodes; none when not said.", HelpName = "DIR" };
        var entries = new Option<string?>("--entries") { Description = "What the log book would have held: comma-separated, first line time,entry,value; entries such as heater-on.", HelpName = "FILE.csv" };
        var strict = new Option<bool>("--strict") { Description = "Stop at the first line that cannot be read." };
        var json = CommonOptions.Json();
        var command = new Command("replay", "Run a recorded log through the watch and print each alarm change with its time.") { file, vat, config, against, output, data, entries, strict, json };
        command.SetAction(parsed => Run(
            new ReplayRequest(parsed.GetValue(file)!, parsed.GetValue(vat)!, parsed.GetValue(config), parsed.GetValue(against), parsed.GetValue(output), parsed.GetValue(data), parsed.GetValue(strict), parsed.GetValue(json)) { Entries = parsed.GetValue(entries) },
            console));
        return command;
    }

    private static int Run(ReplayRequest request, VerbConsole console)
    {
        var first = Load(request.Config, request.Vat, "--config", console);
        var second = request.Against is { } other ? Load(other, request.Vat, "--against", console) : null;
        var calibrations = request.Data is { } folder ? KeptCalibrations.Of(folder, console) : new CalibrationCache();
        try
        {
            return new ReplayRun(request, console).Go(first, second, calibrations);
        }
        catch (RecordedLogException e)
        {
            return console.Fail(ExitCode.Failure, $"'{request.File}': {e.Message}.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
    }

    private static ReplaySetting Load(string? path, string vat, string option, VerbConsole console)
    {
        var configuration = console.Load(path);
        return configuration.Watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == vat) is { } found
            ? new(path ?? configuration.File, found, configuration.Watch.Units)
            : throw new VerbEndedException(
                ExitCode.WrongUsage, $"--vat is '{vat}'; the configuration of {option} has {string.Join(", ", configuration.Watch.Vats.Select(one => $"'{one.Definition.Id}'"))}.");
    }
}
