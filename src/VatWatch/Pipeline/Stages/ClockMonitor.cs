using Microsoft.Extensions.Logging;

namespace VatWatch.Pipeline.Stages;

/// <summary>Compares the wall clock with the monotonic one, logs each time it was set, and settles whether its labels are trusted.</summary>
internal sealed class ClockMonitor(WatchClock clock, ILogger<ClockMonitor> log)
{
    /// <summary>The year in which this program was first built; an earlier label is wrong.</summary>
    internal static readonly DateTimeOffset Earliest = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private readonly ClockWatch _watch = new(clock, Earliest);

    /// <summary>To be called every second; the first time before anything is read, so that the first reading is known to have a wrong label.</summary>
    public void Evaluate()
    {
        var look = _watch.Evaluate();
        if (look.Step is { } step)
        {
            Log.ClockSet(log, step > TimeSpan.Zero ? "forward" : "back", Math.Round(step.Duration().TotalSeconds, 1), look.Before, look.Now);
        }

        if (look.TrustChanged && clock.Trusted)
        {
            Log.ClockTrusted(log, look.Now);
        }
        else if (look.TrustChanged)
        {
            Log.ClockUntrusted(log, look.Now, Earliest.Year);
        }
    }
}
