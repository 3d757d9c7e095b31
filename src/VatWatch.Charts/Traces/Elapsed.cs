namespace VatWatch.Charts.Traces;

/// <summary>How much time lay between two recorded moments, which may be of different runs of the daemon.</summary>
internal static class Elapsed
{
    // Two crystals and a disciplined wall clock differ by less than 1 in 100 by far; one second allows for the grain of small steps.
    private const double Drift = 0.01;
    private static readonly TimeSpan Grain = TimeSpan.FromSeconds(1);

    /// <summary>
    /// The monotonic difference when both moments can be of one run; else the difference of the wall clocks. Never negative: a wall clock that
    /// was set back between two runs tells nothing.
    /// </summary>
    public static TimeSpan Between(Stamp earlier, Stamp later)
    {
        var monotonic = later.Monotonic - earlier.Monotonic;
        var wall = later.Utc - earlier.Utc;
        if (monotonic >= TimeSpan.Zero && (!earlier.UtcTrusted || !later.UtcTrusted || (wall - monotonic).Duration() <= Grain + Drift * monotonic))
            return monotonic;
        return wall > TimeSpan.Zero ? wall : TimeSpan.Zero;
    }
}
