using VatWatch.Charts.Traces;
using VatWatch.Measurements;

namespace VatWatch.Charts.Figures;

/// <summary>The steady change of a value: slope of the least-squares straight line through the good readings.</summary>
internal static class Drift
{
    /// <summary>Change in the value's unit per hour; null with fewer than two good readings at different times.</summary>
    public static double? PerHour(ProbeTrace trace)
    {
        var points = Points(trace);
        if (points.Count < 2)
            return null;
        var meanHours = points.Average(point => point.Hours);
        var meanValue = points.Average(point => point.Value);
        var squares = points.Sum(point => (point.Hours - meanHours) * (point.Hours - meanHours));
        var products = points.Sum(point => (point.Hours - meanHours) * (point.Value - meanValue));
        return squares > 0 ? products / squares : null;
    }

    private static List<(double Hours, double Value)> Points(ProbeTrace trace)
    {
        var points = new List<(double, double)>();
        var time = TimeSpan.Zero;
        Measurement? before = null;
        foreach (var reading in trace.Readings)
        {
            if (before is not null)
                time += Elapsed.Between(before.Stamp, reading.Stamp);
            before = reading;
            if (reading.GoodValue is { } value && double.IsFinite(value))
                points.Add((time.TotalHours, value));
        }

        return points;
    }
}
