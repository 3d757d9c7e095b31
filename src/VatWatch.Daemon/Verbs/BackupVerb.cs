using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch backup</c>: a consistent copy of the store; the daemon may be running.</summary>
internal static class BackupVerb
{
    public static Command Create(VerbConsole console)
    {
        var file = new Argument<string>("FILE") { Description = "The copy of the database to write." };
        var replace = new Option<bool>("--replace") { Description = "Replace a file of that name." };
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var command = new Command("backup", "Copy the store, also while the daemon runs.") { file, replace, config, data };
        command.SetAction(parsed => Run(parsed.GetValue(file)!, parsed.GetValue(replace), parsed.GetValue(config), parsed.GetValue(data), console));
        return command;
    }

    private static int Run(string file, bool replace, string? path, string? data, VerbConsole console)
    {
        var configuration = console.Load(path);
        var folder = data ?? configuration.Watch.DataFolder;
        if (Path.GetFullPath(file) == Path.GetFullPath(Path.Combine(folder, "vatwatch.db")))
        {
            return console.Fail(ExitCode.WrongUsage, $"'{file}' is the store itself; wanted another file.");
        }

        if (File.Exists(file) && !replace)
        {
            return console.Fail(ExitCode.Failure, $"'{file}' exists; wanted a new name, or --replace; nothing was written.");
        }

        using var reader = StoreReader.OpenFolder(folder);
        reader.Backup(file, replace);
        console.Out.WriteLine($"{file}: copied and checked, {new FileInfo(file).Length / 1e6:0.0} MB. Files named in the configuration, such as passwords, are not in it.");
        return ExitCode.Success;
    }
}
