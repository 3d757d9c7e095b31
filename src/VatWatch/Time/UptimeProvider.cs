using System.Runtime.InteropServices;

namespace VatWatch.Time;

/// <summary>A clock that nobody sets and that goes on while the computer sleeps, which the monotonic one does not (clock_gettime(2), CLOCK_BOOTTIME). Linux only.</summary>
internal sealed class UptimeProvider : TimeProvider
{
    private const int BootTime = 7;
    private const long NanosecondsPerSecond = 1_000_000_000;

    public override long TimestampFrequency => NanosecondsPerSecond;

    public override long GetTimestamp() => clock_gettime(BootTime, out var time) == 0 ? time.Seconds * NanosecondsPerSecond + time.Nanoseconds : 0;

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int clock_gettime(int clock, out TimeSpec time);

    /// <summary>As a 64-bit system has it.</summary>
    [StructLayout(LayoutKind.Sequential)]
    private struct TimeSpec
    {
        public long Seconds;
        public long Nanoseconds;
    }
}
