using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using VatWatch.Daemon.Verbs.Alarms;
using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Daemon.Verbs.Dosing;
using VatWatch.Daemon.Verbs.Influx;
using VatWatch.Daemon.Verbs.Init;
using VatWatch.Daemon.Verbs.Ledger;
using VatWatch.Daemon.Verbs.Plan;
using VatWatch.Daemon.Verbs.Read;
using VatWatch.Daemon.Verbs.Replay;
using VatWatch.Daemon.Verbs.Report;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary>The command line: verbs, help, exit codes. No exception leaves it.</summary>
internal static class VatWatchCommand
{
    /// <summary>In the order of the help.</summary>
    private static readonly (string Word, Func<VerbConsole, Command> Create)[] Verbs =
    [
        ("run", RunVerb.Create),
        ("init", console => InitVerb.Create(console)),
        ("check", CheckVerb.Create),
        ("read", ReadVerb.Create),
        ("replay", ReplayVerb.Create),
        ("report", ReportVerb.Create),
        ("compare", CompareVerb.Create),
        ("life", LifeVerb.Create),
        ("backup", BackupVerb.Create),
        ("verify", VerifyVerb.Create),
        ("dose", DoseVerb.Create),
        ("ledger", LedgerVerb.Create),
        ("revive", ReviveVerb.Create),
        ("plan", PlanVerb.Create),
        ("calibrate", CalibrateVerb.Create),
        ("alarms", AlarmsVerb.Create),
        ("influx", InfluxVerb.Create),
        ("notify", NotifyVerb.Create),
        ("password", console => PasswordVerb.Create(console)),
    ];

    /// <summary>Runs one verb to its end and gives the exit code.</summary>
    public static async Task<int> RunAsync(string[] arguments, VerbConsole console)
    {
        // What programs read has one object or line a line, however long.
        console = arguments.Contains(CommonOptions.Json().Name) ? console : console.Folded();
        var root = Build(arguments.FirstOrDefault(), console);
        var parsed = root.Parse(arguments);
        if (parsed.Errors.Count > 0 && parsed.Action is ParseErrorAction)
        {
            foreach (var error in parsed.Errors)
            {
                console.Error.WriteLine($"vatwatch: {error.Message}");
            }

            console.Error.WriteLine("vatwatch: 'vatwatch --help' lists the verbs and their options.");
            return ExitCode.WrongUsage;
        }

        try
        {
            return await parsed.InvokeAsync(new InvocationConfiguration
            {
                Output = console.Out,
                Error = console.Error,
                EnableDefaultExceptionHandler = false,
                ProcessTerminationTimeout = null,
            });
        }
        catch (VerbEndedException e)
        {
            return e.Message.Length > 0 ? console.Fail(e.Code, e.Message) : e.Code;
        }
        catch (Exception e) when (e is StoreUnavailableException or StoreInUseException or DaemonUnreachableException or GuideEndedException)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
        catch (Exception e)
        {
            return console.Fail(ExitCode.Failure, $"something unexpected happened ({e.GetType().Name}: {e.Message}).");
        }
    }

    /// <summary>The command line of the verb that is asked for, or of all of them: to make all takes longer than most verbs take.</summary>
    private static RootCommand Build(string? word, VerbConsole console)
    {
        var root = new RootCommand("VatWatch: the night watch and log book of heated indigo vats. Not a safety device.");
        var asked = Array.FindAll(Verbs, verb => verb.Word == word);
        foreach (var (_, create) in asked.Length > 0 ? asked : Verbs)
        {
            root.Subcommands.Add(create(console));
        }

        RunVerb.AddAction(root, console);
        if (console.Width is { } width && root.Options.OfType<HelpOption>().FirstOrDefault()?.Action is HelpAction help)
        {
            help.MaxWidth = width;
        }

        return root;
    }
}
