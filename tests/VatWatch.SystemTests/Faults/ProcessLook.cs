using System.Globalization;

namespace VatWatch.SystemTests.Faults;

/// <summary>What a process takes at one moment, as the kernel tells it (proc(5)).</summary>
/// <param name="At">When, on a monotonic clock of the test.</param>
/// <param name="Resident">Memory, bytes.</param>
/// <param name="Files">Open descriptors.</param>
/// <param name="Threads">Threads.</param>
/// <param name="Processor">Time on a processor since it began.</param>
internal sealed record ProcessLook(TimeSpan At, long Resident, int Files, int Threads, TimeSpan Processor)
{
    /// <summary>Clock ticks a second in <c>/proc/PID/stat</c>: USER_HZ, 100 on Linux.</summary>
    private const double UserTicks = 100;

    public double ResidentMegabytes => Resident / 1024.0 / 1024.0;

    public static ProcessLook Of(int process)
    {
        var status = File.ReadLines($"/proc/{process}/status").Select(line => line.Split(':', 2)).ToDictionary(pair => pair[0], pair => pair[1]);
        var stat = File.ReadAllText($"/proc/{process}/stat");
        var fields = stat[(stat.LastIndexOf(')') + 2)..].Split(' ');
        var ticks = Number(fields[11]) + Number(fields[12]);
        return new(
            TimeSpan.FromMilliseconds(Environment.TickCount64),
            Number(status["VmRSS"]) * 1024,
            Directory.GetFiles($"/proc/{process}/fd").Length,
            (int)Number(status["Threads"]),
            TimeSpan.FromSeconds(ticks / UserTicks));
    }

    private static long Number(string text) => long.Parse(new string([.. text.Where(char.IsAsciiDigit)]), CultureInfo.InvariantCulture);
}
