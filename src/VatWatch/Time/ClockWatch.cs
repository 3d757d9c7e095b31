namespace VatWatch.Time;

/// <summary>
/// Watches the wall clock against the monotonic one: tells when it was set, once for each time, and whether its labels can be right. A clock
/// that is slewed (steered slowly, at most 1 in 2000 by the kernel's own rule) is not set. For one thread.
/// </summary>
public sealed class ClockWatch
{
    private readonly WatchClock _clock;
    private DateTimeOffset _seen;
    private long _at;

    /// <summary>Begins to watch.</summary>
    /// <param name="clock">The clock of the run; its trust is set.</param>
    /// <param name="earliest">No label before this can be right, such as that of a board without a battery that starts in 1970.</param>
    public ClockWatch(WatchClock clock, DateTimeOffset earliest)
    {
        _clock = clock;
        clock.Earliest = earliest;
        (_seen, _at) = (clock.Provider.GetUtcNow(), clock.Provider.GetTimestamp());
    }

    /// <summary>Looks; the first look settles the trust.</summary>
    public ClockSnapshot Evaluate()
    {
        var (now, at) = (_clock.Provider.GetUtcNow(), _clock.Provider.GetTimestamp());
        var passed = _clock.Provider.GetElapsedTime(_at, at);
        var expected = _seen + passed;
        var moved = now - expected;
        (_seen, _at) = (now, at);
        var trusted = now >= _clock.Earliest;
        var changed = trusted != _clock.Trusted;
        _clock.Trusted = trusted;
        return new ClockSnapshot(moved.Duration() > SmallestStep + passed * LargestSlew ? moved : null, expected, now, changed);
    }

    /// <summary>Less is not a step but how long this thread was kept waiting between reading one clock and the other.</summary>
    private static readonly TimeSpan SmallestStep = TimeSpan.FromSeconds(1);

    /// <summary>Twice what adjtime(3) and the time services steer by (500 parts per million).</summary>
    private const double LargestSlew = 0.001;
}

/// <summary>What one look at the wall clock found.</summary>
/// <param name="Step">How far it was set forward (or back, when negative) since the look before; null when it was not.</param>
/// <param name="Before">What it would show now, had it not been set.</param>
/// <param name="Now">What it shows.</param>
/// <param name="TrustChanged">Whether its labels are trusted now and were not, or the other way round.</param>
public readonly record struct ClockSnapshot(TimeSpan? Step, DateTimeOffset Before, DateTimeOffset Now, bool TrustChanged);
