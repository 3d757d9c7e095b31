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
        var store = new ConfiguredStoreOptions(console);
        var command = new Command("backup", "Copy the store, also while the daemon runs.") { file, replace, store };
        command.SetAction(parsed => Run(parsed.GetValue(file)!, parsed.GetValue(replace), store.Of(parsed), console));
        return command;
    }

    private static int Run(string file, bool replace, ConfiguredStore store, VerbConsole console)
    {
        if (Path.GetFullPath(file) == Path.GetFullPath(Path.Combine(store.Folder, "vatwatch.db")))
        {
            return console.Fail(ExitCode.WrongUsage, $"'{file}' is the store itself; wanted another file.");
        }

        if (File.Exists(file) && !replace)
        {
            return console.Fail(ExitCode.Failure, $"'{file}' exists; wanted a new name, or --replace; nothing was written.");
        }

        using var reader = StoreReader.OpenFolder(store.Folder);
        reader.Backup(file, replace);
        console.Out.WriteLine($"{file}: copied and checked, {new FileInfo(file).Length / 1e6:0.0} MB. Files named in the configuration, such as passwords, are not in it.");
        return ExitCode.Success;
    }
}
