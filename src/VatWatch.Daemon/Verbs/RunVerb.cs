using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Service;
using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch run</c>: the daemon.</summary>
internal static class RunVerb
{
    /// <summary>Store of the installed package; its user is <c>vatwatch</c>.</summary>
    public const string InstalledData = "/var/lib/vatwatch";

    public static Command Create(VerbConsole console)
    {
        var command = new Command("run", "Watch the vats until stopped (Ctrl+C).");
        AddAction(command, console);
        return command;
    }

    /// <summary>Lets a command run the daemon: <c>vatwatch</c> without a verb does the same.</summary>
    public static void AddAction(Command command, VerbConsole console)
    {
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var json = new Option<bool>("--json") { Description = "Write the log as JSON lines for machines." };
        command.Options.Add(config);
        command.Options.Add(data);
        command.Options.Add(json);
        command.SetAction((parsed, cancel) => RunAsync(parsed.GetValue(config), parsed.GetValue(data), parsed.GetValue(json), console, cancel));
    }

    /// <summary>Whether a folder is the package's and this is root, whose files the service's user could not open.</summary>
    internal static bool MustNotBeRoot(string folder, bool isRoot) =>
        isRoot && $"{Path.GetFullPath(folder)}/".StartsWith($"{InstalledData}/", StringComparison.Ordinal);

    private static async Task<int> RunAsync(string? path, string? data, bool json, VerbConsole console, CancellationToken cancel)
    {
        NativeHeap.GiveBackLargeBlocks();
        var configuration = console.Load(path);
        if (data is null && configuration.StoreLeftBehind() is { } leftBehind)
        {
            return console.Fail(ExitCode.Failure, $"{leftBehind}.");
        }

        var folder = data ?? configuration.Watch.DataFolder;
        if (MustNotBeRoot(folder, Environment.IsPrivilegedProcess))
        {
            return console.Fail(
                ExitCode.Failure, $"Store in '{folder}': not opened; root would leave files there that the service cannot use; wanted `sudo systemctl start vatwatch`, or `sudo -u vatwatch vatwatch run`.");
        }

        using var upkeep = ManagedHeap.GiveBackUnused(TimeProvider.System);
        await using var host = WatchHost.Open(configuration, folder, json);
        return await host.RunAsync(cancel) ? ExitCode.Success : ExitCode.Failure;
    }
}
