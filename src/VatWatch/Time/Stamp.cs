namespace VatWatch.Time;

/// <summary>When something was seen, by two clocks. Labels come from <see cref="Utc"/>, durations only from <see cref="Monotonic"/>.</summary>
/// <param name="Utc">Wall clock.</param>
/// <param name="Monotonic">Time since this run of the daemon began; never steps.</param>
/// <param name="UtcTrusted">Whether the wall clock was known to be right.</param>
public readonly record struct Stamp(DateTimeOffset Utc, TimeSpan Monotonic, bool UtcTrusted)
{
    /// <summary>How long after <paramref name="earlier"/> this was, by the monotonic clock. Both must be of one run.</summary>
    public TimeSpan Since(Stamp earlier) => Monotonic - earlier.Monotonic;

    /// <summary>This moment moved by <paramref name="by"/> on both clocks.</summary>
    public Stamp Plus(TimeSpan by) => new(Utc + by, Monotonic + by, UtcTrusted);
}
