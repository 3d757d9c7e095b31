using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Pipeline.Configuration;

namespace VatWatch.Daemon.Verbs;

/// <summary>Options that several verbs share.</summary>
internal static class CommonOptions
{
    public static Option<string?> Config() => new("--config") { Description = "Configuration file; default config/vatwatch.json, else /etc/vatwatch/vatwatch.json.", HelpName = "FILE" };

    public static Option<string?> Data() => new("--data") { Description = "Folder of the store; default is what the configuration says.", HelpName = "DIR" };

    public static Option<bool> Json() => new("--json") { Description = "Write JSON for other programs." };

    /// <summary>Lets a command's initializer name the pair like one option.</summary>
    public static void Add(this Command command, ConfiguredStoreOptions store) => store.AddTo(command);
}

/// <summary>The configuration and the folder of the store that a verb was pointed at.</summary>
internal sealed record ConfiguredStore(DaemonConfiguration Configuration, string Folder)
{
    public WatchConfiguration Watch => Configuration.Watch;
}

/// <summary><c>--config</c> and <c>--data</c> of a verb that reads both.</summary>
internal sealed class ConfiguredStoreOptions(VerbConsole console)
{
    private readonly Option<string?> _config = CommonOptions.Config();
    private readonly Option<string?> _data = CommonOptions.Data();

    public void AddTo(Command command)
    {
        command.Options.Add(_config);
        command.Options.Add(_data);
    }

    /// <exception cref="VerbEndedException">The configuration has faults.</exception>
    public ConfiguredStore Of(ParseResult parsed)
    {
        var configuration = console.Load(parsed.GetValue(_config));
        return new(configuration, parsed.GetValue(_data) ?? configuration.Watch.DataFolder);
    }
}

/// <summary>Exit codes of every verb; 64 and 78 are those of sysexits.h.</summary>
internal static class ExitCode
{
    public const int Success = 0;
    public const int Failure = 1;
    public const int WrongUsage = 64;
    public const int BadConfiguration = 78;
}
