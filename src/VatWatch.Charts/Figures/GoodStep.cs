using VatWatch.Charts.Traces;
using VatWatch.Measurements;

namespace VatWatch.Charts.Figures;

/// <summary>The time from one good reading to the next, with nothing doubtful and no gap between. Values in between follow a straight line.</summary>
/// <param name="Before">Value at its start, canonical unit.</param>
/// <param name="After">Value at its end.</param>
internal readonly record struct GoodStep(TimeSpan Length, double Before, double After)
{
    /// <summary>The steps of a trace: the only time of which a figure may be given.</summary>
    public static IReadOnlyList<GoodStep> Of(ProbeTrace trace)
    {
        var steps = new List<GoodStep>();
        Measurement? before = null;
        foreach (var reading in trace.Readings)
        {
            if (before?.GoodValue is { } first && reading.GoodValue is { } second
                && Elapsed.Between(before.Stamp, reading.Stamp) is var length && length > TimeSpan.Zero && length <= trace.LongestStep)
                steps.Add(new GoodStep(length, first, second));
            before = reading;
        }

        return steps;
    }

    /// <summary>The part of this step, 0 to 1, in which the value is below <paramref name="level"/>.</summary>
    public double FractionBelow(double level)
    {
        if (Before == After)
            return Before < level ? 1 : 0;
        var crossing = Math.Clamp((level - Before) / (After - Before), 0, 1);
        return After > Before ? crossing : 1 - crossing;
    }
}
