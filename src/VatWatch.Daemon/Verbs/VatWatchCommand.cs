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
    private static readonly string[] Verbs =
        ["run", "init", "check", "read", "replay", "report", "compare", "life", "backup", "verify", "dose", "ledger", "revive", "plan", "calibrate", "alarms", "influx", "notify", "password"];

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
        foreach (var verb in word is not null && Verbs.Contains(word) ? [word] : Verbs)
        {
            root.Subcommands.Add(Create(verb, console));
        }

        RunVerb.AddAction(root, console);
        if (console.Width is { } width && root.Options.OfType<HelpOption>().FirstOrDefault()?.Action is HelpAction help)
        {
            help.MaxWidth = width;
        }

        return root;
    }

    private static Command Create(string verb, VerbConsole console) => verb switch
    {
        "run" => RunVerb.Create(console),
        "init" => InitVerb.Create(console),
        "check" => CheckVerb.Create(console),
        "read" => ReadVerb.Create(console),
        "replay" => ReplayVerb.Create(console),
        "report" => ReportVerb.Create(console),
        "compare" => CompareVerb.Create(console),
        "life" => LifeVerb.Create(console),
        "backup" => BackupVerb.Create(console),
        "verify" => VerifyVerb.Create(console),
        "dose" => DoseVerb.Create(console),
        "ledger" => LedgerVerb.Create(console),
        "revive" => ReviveVerb.Create(console),
        "plan" => PlanVerb.Create(console),
        "calibrate" => CalibrateVerb.Create(console),
        "alarms" => AlarmsVerb.Create(console),
        "influx" => InfluxVerb.Create(console),
        "notify" => NotifyVerb.Create(console),
        "password" => PasswordVerb.Create(console),
        _ => throw new ArgumentOutOfRangeException(nameof(verb), verb, "is not a verb"),
    };
}
