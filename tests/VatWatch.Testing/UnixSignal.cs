using System.Runtime.InteropServices;

namespace VatWatch.Testing;

/// <summary>Sends signals to processes that a test has started (numbers of Linux, signal(7)).</summary>
internal static class UnixSignal
{
    public const int Abort = 6;
    public const int Kill = 9;
    public const int Terminate = 15;
    public const int Continue = 18;
    public const int Stop = 19;

    /// <summary>Sends <paramref name="signal"/>; a process that is gone already is no fault.</summary>
    public static void Send(int process, int signal) => _ = kill(process, signal);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int kill(int pid, int sig);
}
