namespace VatWatch.Charts.Figures;

/// <summary>How long a value was below, in and above its band, of the time that it was known.</summary>
/// <param name="Inside">From its low to its high edge.</param>
internal sealed record TimeInBand(TimeSpan Below, TimeSpan Inside, TimeSpan Above)
{
    /// <summary>The time of which anything is known.</summary>
    public TimeSpan Known => Below + Inside + Above;

    /// <summary>Sums up <paramref name="steps"/> against the band; the moment of crossing an edge is found on the straight line.</summary>
    public static TimeInBand Of(IReadOnlyList<GoodStep> steps, double low, double high)
    {
        var (below, inside, above) = (TimeSpan.Zero, TimeSpan.Zero, TimeSpan.Zero);
        foreach (var step in steps)
        {
            var underLow = step.FractionBelow(low);
            // A value that stays at the high edge is in the band, so the part above is the part whose mirror image is below.
            var overHigh = new GoodStep(step.Length, -step.Before, -step.After).FractionBelow(-high);
            below += step.Length * underLow;
            above += step.Length * overHigh;
            inside += step.Length * (1 - underLow - overHigh);
        }

        return new TimeInBand(below, inside, above);
    }
}
