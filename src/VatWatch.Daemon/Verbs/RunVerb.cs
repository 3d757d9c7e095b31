using System.CommandLine;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Wiring;
using VatWatch.Notifications.Mqtt;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch run</c>: the daemon.</summary>
internal static class RunVerb
{
    public static Command Create(VerbConsole console)
    {
        var command = new Command("run", "Watch the vats until stopped (Ctrl+C).");
        AddAction(command, console);
        return command;
    }

    /// <summary>Lets <c>vatwatch</c> without a verb do the same.</summary>
    public static void MakeDefault(RootCommand root, VerbConsole console) => AddAction(root, console);

    private static void AddAction(Command command, VerbConsole console)
    {
        var config = CommonOptions.Config();
        var data = CommonOptions.Data();
        var json = new Option<bool>("--json") { Description = "Write the log as JSON lines for machines." };
        command.Options.Add(config);
        command.Options.Add(data);
        command.Options.Add(json);
        command.SetAction((parsed, cancel) => RunAsync(parsed.GetValue(config), parsed.GetValue(data), parsed.GetValue(json), console, cancel));
    }

    private static async Task<int> RunAsync(string? path, string? data, bool json, VerbConsole console, CancellationToken cancel)
    {
        if (DaemonConfiguration.Load(path, console) is not { } configuration)
        {
            return ExitCode.BadConfiguration;
        }

        try
        {
            await using var host = WatchHost.Open(configuration, data ?? configuration.Watch.DataFolder, json);
            return await host.RunAsync(cancel) ? ExitCode.Success : ExitCode.Failure;
        }
        catch (Exception e) when (e is StoreInUseException or StoreUnavailableException or BrokerStartException or WebStartException)
        {
            return console.Fail(ExitCode.Failure, e.Message);
        }
    }
}
