namespace VatWatch.Daemon.Verbs;

/// <summary>Exit codes of every verb; 64 and 78 are those of sysexits.h.</summary>
internal static class ExitCode
{
    public const int Success = 0;
    public const int Failure = 1;
    public const int WrongUsage = 64;
    public const int BadConfiguration = 78;
}
