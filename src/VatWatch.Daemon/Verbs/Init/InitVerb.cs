using System.CommandLine;
using System.Text;
using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Vats;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary><c>vatwatch init</c>: asks a few questions and writes a first configuration. It never overwrites a file.</summary>
internal static class InitVerb
{
    private const string UsualFile = "vatwatch.json";
    private const string InstalledData = "/var/lib/vatwatch";

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
            console, root, parsed.GetValue(file)!, new InitInterview(console, FoundPlaces.Look(root), name => parsed.GetValue(flags[name]), parsed.GetValue(probes) ?? [])));
        return command;
    }

    private static int Run(VerbConsole console, string root, string file, InitInterview interview)
    {
        if (Path.Exists(file))
        {
            return console.Fail(ExitCode.Failure, $"there is a {file} already, and it is not overwritten; wanted another name (--out FILE).");
        }

        try
        {
            var answers = interview.Take() with { Data = Directory.Exists(Path.Combine(root, InstalledData[1..])) ? InstalledData : null };
            var document = InitDocument.Write(answers);
            if (InitDocument.Faults(document) is [var fault, ..])
            {
                return console.Fail(ExitCode.Failure, $"what these answers give does not pass its own check ({fault}); nothing was written.");
            }

            using (var stream = new StreamWriter(new FileStream(file, FileMode.CreateNew), new UTF8Encoding(false)))
            {
                stream.Write(document);
            }

            TellNext(console.Out, file, answers);
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

    private static void TellNext(TextWriter output, string file, InitAnswers answers)
    {
        var isElectrode = answers.Probes.Any(probe => probe.Driver is "ads1115" or "ufire-ise" && probe.Measures is Measures.Ph or Measures.Orp);
        output.WriteLine($"{file} is written and passes `vatwatch check`. Next:");
        output.WriteLine(answers.IsPractice
            ? $"  vatwatch run --config {file}      a simulated night in five minutes; the page is http://127.0.0.1:8080"
            : $"""
                Look at the settings of each probe in {file}: what stands there is a beginning.
                vatwatch read --config {file}     one reading from every probe; mend what it says before you go on
              {(isElectrode ? $"  vatwatch calibrate ph --help      electrodes are calibrated before they are believed\n" : "")}  vatwatch run --config {file}      watches; the page is http://127.0.0.1:8080
              """);
        output.WriteLine($"  vatwatch notify --config {file} --all   tries your phone; README, \"Making the phone ring\", says how it is set up");
        output.WriteLine("VatWatch is not a safety device. The heater's own thermostat, a cut-out that is reset by hand, and ground-fault protection come first.");
    }
}
