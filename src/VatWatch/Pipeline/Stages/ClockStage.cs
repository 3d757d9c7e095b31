using Microsoft.Extensions.Logging;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline.Stages;

/// <summary>Looks at the wall clock every second, logs each time it was set, and settles whether its labels are trusted.</summary>
internal sealed class ClockStage(WatchClock clock, TimeProvider time, ILogger<ClockStage> log) : IStage
{
    /// <summary>The year in which this program was first built; an earlier label is wrong.</summary>
    internal static readonly DateTimeOffset Earliest = new(2026, 1, 1, 0, 0, 0, TimeSpan.Zero);

    private static readonly TimeSpan Period = TimeSpan.FromSeconds(1);
    private readonly ClockWatch _watch = new(clock, Earliest);

    public string Name => "clock";

    public Pulse Pulse { get; } = new(TimeSpan.FromSeconds(30), TimeProvider.System);

    public async Task RunAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(Period, time);
        while (await timer.WaitForNextTickAsync(cancel))
        {
            Pulse.Tick();
            Evaluate();
        }
    }

    /// <summary>One look; the first is before anything is read, so that the first reading is known to have a wrong label.</summary>
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
