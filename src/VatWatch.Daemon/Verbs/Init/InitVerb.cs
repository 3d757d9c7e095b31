using System.CommandLine;
using System.Text;
using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary><c>vatwatch init</c>: asks a few questions and writes a first configuration. It never overwrites a file.</summary>
internal static class InitVerb
{
    private const string UsualFile = "vatwatch.json";

    /// <summary>The verb.</summary>
    /// <param name="console">Where it asks and answers.</param>
    /// <param name="root">Folder that stands for <c>/</c> when probes are looked for.</param>
    public static Command Create(VerbConsole console, string root = "/")
    {
        var file = new Option<string>("--out") { Description = $"The file to write; default {UsualFile} in this folder. Never overwritten.", HelpName = "FILE", DefaultValueFactory = _ => UsualFile };
        var probes = new Option<string[]>("--probe") { Description = $"A probe: {ProbeWish.Wanted}. May be given several times; without one, a simulated vat.", HelpName = "PROBE" };
        var flags = new[] { InitQuestion.Site, InitQuestion.Vat, InitQuestion.Volume, InitQuestion.Fibre, InitQuestion.Reducer, InitQuestion.Display }
            .ToDictionary(question => question.Flag, question => new Option<string?>(question.Flag) { Description = $"{question.Ask}.", HelpName = question.Flag[2..].ToUpperInvariant() });
        var command = new Command("init", "Write a first configuration, from a few questions or from flags.") { file, probes };
        foreach (var option in flags.Values)
        {
            command.Options.Add(option);
        }

        command.SetAction(parsed => Run(
            console, root, parsed.GetValue(file)!, new InitInterview(console, FoundPlaces.Evaluate(root), name => parsed.GetValue(flags[name]), parsed.GetValue(probes) ?? [])));
        return command;
    }

    /// <summary>With the package's store where the package is installed. A vat to practise on has one of its own: its clock runs ahead of the wall's.</summary>
    private static InitAnswers Installed(string root, InitAnswers answers) => Directory.Exists(Path.Combine(root, RunVerb.InstalledData[1..]))
        ? answers with { Data = answers.IsPractice ? $"{RunVerb.InstalledData}/practice" : RunVerb.InstalledData }
        : answers;

    private static int Run(VerbConsole console, string root, string file, InitInterview interview)
    {
        if (Path.Exists(file))
        {
            return console.Fail(ExitCode.Failure, $"there is a {file} already, and it is not overwritten; wanted another name (--out FILE).");
        }

        try
        {
            var answers = Installed(root, interview.Take());
            var document = InitDocument.Write(answers);
            if (InitDocument.Faults(document) is [var fault, ..])
            {
                return console.Fail(ExitCode.Failure, $"what these answers give does not pass its own check ({fault}); nothing was written.");
            }

            using (var stream = new StreamWriter(new FileStream(file, FileMode.CreateNew), new UTF8Encoding(false)))
            {
                stream.Write(document);
            }

            NextSteps.Tell(console.Out, file, answers);
            return ExitCode.Success;
        }
        catch (WrongFlagException e)
        {
            return console.Fail(ExitCode.WrongUsage, e.Message);
        }
        catch (GuideEndedException e)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return console.Fail(ExitCode.Failure, $"{file} cannot be written: {e.Message}");
        }
    }
}
