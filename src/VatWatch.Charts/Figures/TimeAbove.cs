namespace VatWatch.Charts.Figures;

/// <summary>How long, and how far, a value stood at or above a level.</summary>
/// <param name="Time">Time at or above the level.</param>
/// <param name="ValueMinutes">
/// Integral over time of what it was above the level, in the value's unit times minutes: K·min for a temperature. Ten minutes at 2 K above
/// give 20 K·min.
/// </param>
internal sealed record TimeAbove(TimeSpan Time, double ValueMinutes)
{
    /// <summary>Sums up <paramref name="steps"/>, exact for straight lines between readings.</summary>
    public static TimeAbove Of(IReadOnlyList<GoodStep> steps, double level)
    {
        var time = TimeSpan.Zero;
        var valueMinutes = 0.0;
        foreach (var step in steps)
        {
            var fraction = 1 - step.FractionBelow(level);
            time += step.Length * fraction;
            // The part above is a trapezium; where the line crosses the level, one of its sides is 0 and it is a triangle.
            var meanAbove = (Math.Max(step.Before - level, 0) + Math.Max(step.After - level, 0)) / 2;
            valueMinutes += meanAbove * fraction * step.Length.TotalMinutes;
        }

        return new TimeAbove(time, valueMinutes);
    }
}
