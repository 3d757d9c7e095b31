using System.CommandLine;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary><c>vatwatch calibrate ph</c> and <c>vatwatch calibrate orp</c>; may be used while the daemon runs on the same folder.</summary>
internal static class CalibrateVerb
{
    public static Command Create(VerbConsole console) => new("calibrate", "Calibrate an electrode; the daemon may be running.")
    {
        PhCommand(console),
        OrpCommand(console),
    };

    private static Command PhCommand(VerbConsole console)
    {
        var points = new Option<string[]>("--point")
        {
            Description = "One buffer, such as '7.00: 5.0 mV @ 25 °C'; one to three of them. Without the value the buffer is recognised by its voltage. Without any, guided.",
            HelpName = "POINT",
        };
        var set = new Option<string>("--set") { Description = "What the values name: technical (ready-made buffers, default), primary (standards), or bottle (the value itself, as printed for that temperature).", DefaultValueFactory = _ => "technical" };
        set.AcceptOnlyFromAmong([.. BufferChoice.All.Select(choice => choice.Word)]);
        var pieces = new Option<bool>("--pieces") { Description = "Read the liquor between the two buffers that bracket it, instead of on one line for all." };
        var shared = new SharedOptions(console);
        var command = new Command("ph", "By one, two or three buffers.") { points, set, pieces };
        shared.AddTo(command);
        command.SetAction((parsed, cancel) => new PhCalibrating(
            shared.Of(parsed),
            parsed.GetValue(points) ?? [],
            BufferChoice.All.First(choice => choice.Word == parsed.GetValue(set)),
            parsed.GetValue(pieces),
            console).RunAsync(cancel));
        return command;
    }

    private static Command OrpCommand(VerbConsole console)
    {
        var solution = new Option<string>("--solution") { Description = "The check solution.", Required = true };
        solution.AcceptOnlyFromAmong([.. CheckSolutionText.All.Keys]);
        var reading = new Option<string?>("--reading") { Description = "What the probe shows in it, such as '214 mV @ 25 °C'. Without it, guided.", HelpName = "READING" };
        var shared = new SharedOptions(console);
        var command = new Command("orp", "By one check solution.") { solution, reading };
        shared.AddTo(command);
        command.SetAction((parsed, cancel) => new OrpCalibrating(
            shared.Of(parsed),
            CheckSolutionText.All[parsed.GetValue(solution)!],
            parsed.GetValue(reading),
            console).RunAsync(cancel));
        return command;
    }

    private sealed class SharedOptions(VerbConsole console)
    {
        private readonly Option<string> _probe = new("--probe") { Description = "The probe.", HelpName = "ID", Required = true };
        private readonly Option<bool> _keep = new("--keep") { Description = "Store it even when it is outside the limits." };
        private readonly ConfiguredStoreOptions _store = new(console);
        private readonly Option<bool> _json = CommonOptions.Json();

        public void AddTo(Command command)
        {
            command.Options.Add(_probe);
            command.Options.Add(_keep);
            _store.AddTo(command);
            command.Options.Add(_json);
        }

        public CommonAnswers Of(ParseResult parsed) => new(_store.Of(parsed), parsed.GetValue(_probe)!, parsed.GetValue(_keep), parsed.GetValue(_json));
    }
}
