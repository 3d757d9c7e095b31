using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Figures;

/// <summary>First, last, lowest, highest and median of the good values of one trace.</summary>
/// <param name="First">First good value, canonical unit.</param>
/// <param name="Last">Last good value.</param>
/// <param name="HighestAt">When it was first that high, UTC.</param>
/// <param name="Median">Median; of an even number of values, the mean of the middle two.</param>
internal sealed record Extremes(double First, double Last, double Lowest, double Highest, DateTimeOffset HighestAt, double Median)
{
    /// <summary>The extremes; null when no reading was good.</summary>
    public static Extremes? Of(ProbeTrace trace)
    {
        var good = trace.Readings.Where(reading => reading.GoodValue is { } value && double.IsFinite(value)).ToArray();
        if (good.Length == 0)
            return null;
        var highest = good.MaxBy(reading => reading.Value)!;
        var sorted = good.Select(reading => reading.Value!.Value).Order().ToArray();
        var median = (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
        return new Extremes(good[0].Value!.Value, good[^1].Value!.Value, sorted[0], highest.Value!.Value, highest.Stamp.Utc, median);
    }
}
