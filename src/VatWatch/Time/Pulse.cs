namespace VatWatch.Time;

/// <summary>
/// A sign of life of something that goes round: it beats each time it comes round, and rests while it waits for something to do. One that
/// has neither beaten nor rested for longer than its limit is stuck. Begins at rest. Thread safe.
/// </summary>
/// <param name="limit">Longest time that one round may take.</param>
/// <param name="time">The wall's monotonic clock.</param>
public sealed class Pulse(TimeSpan limit, TimeProvider time)
{
    private const long Resting = long.MinValue;
    private long _since = Resting;

    /// <summary>Whether one round has taken longer than the limit.</summary>
    public bool IsStuck => Interlocked.Read(ref _since) is var since && since != Resting && time.GetElapsedTime(since) > limit;

    /// <summary>It has come round, and goes on.</summary>
    public void Tick() => Interlocked.Exchange(ref _since, time.GetTimestamp());

    /// <summary>There is nothing to do; however long that lasts, it is not stuck.</summary>
    public void Rest() => Interlocked.Exchange(ref _since, Resting);
}
