using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch verify</c>: reads a whole store, or a copy of one, and says what is wrong with it.</summary>
internal static class VerifyVerb
{
    public static Command Create(VerbConsole console)
    {
        var file = new Option<string?>("--file") { Description = "A copy made by 'backup'; default is the store of the configuration.", HelpName = "FILE" };
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var command = new Command("verify", "Look through the store for damage and contradictions.") { file, config, data };
        command.SetAction(parsed => Run(parsed.GetValue(file), parsed.GetValue(config), parsed.GetValue(data), console));
        return command;
    }

    private static int Run(string? file, string? path, string? data, VerbConsole console)
    {
        var place = file ?? data ?? console.Load(path).Watch.DataFolder;
        using var reader = file is null ? StoreReader.OpenFolder(place) : StoreReader.OpenFile(file);
        var faults = StoreSurvey.Faults(reader);
        foreach (var fault in faults)
        {
            console.Fail(ExitCode.Failure, fault);
        }

        if (faults.Count > 0)
        {
            return ExitCode.Failure;
        }

        console.Out.WriteLine($"{place}: sound; {reader.Count()} readings in the database.");
        return ExitCode.Success;
    }
}
