using System.CommandLine;

namespace VatWatch.Daemon.Verbs;

/// <summary>Options that several verbs share.</summary>
internal static class CommonOptions
{
    public static Option<string?> Config() => new("--config") { Description = "Configuration file; default config/vatwatch.json, else /etc/vatwatch/vatwatch.json.", HelpName = "FILE" };

    public static Option<string?> Data() => new("--data") { Description = "Folder of the store; default is what the configuration says.", HelpName = "DIR" };

    public static Option<bool> Json() => new("--json") { Description = "Write JSON for other programs." };
}

/// <summary>Exit codes of every verb; 64 and 78 are those of sysexits.h.</summary>
internal static class ExitCode
{
    public const int Success = 0;
    public const int Failure = 1;
    public const int WrongUsage = 64;
    public const int BadConfiguration = 78;
}
