namespace VatWatch.Conditions.Reduction;

/// <summary>
/// Slope by Theil and Sen: the median of the slopes between all pairs of points, indifferent to up to 29 % of outliers. The cost is bounded
/// by <see cref="MostPoints"/>.
/// </summary>
internal static class RobustSlope
{
    /// <summary>60 points make 1770 pairs, about 0.1 ms.</summary>
    public const int MostPoints = 60;

    private const double NinetyPercent = 1.645;

    /// <summary>Through at most <see cref="MostPoints"/> points, the newest; null with fewer than four or all at one moment.</summary>
    /// <returns>Slope per hour, its standard error (from Sen's rank interval), the line's value at the newest point, and the scatter about it.</returns>
    public static Trend? Through(IReadOnlyList<TimedValue> points)
    {
        var first = Math.Max(0, points.Count - MostPoints);
        var n = points.Count - first;
        if (n < 4)
        {
            return null;
        }

        var slopes = new List<double>(n * (n - 1) / 2);
        for (var i = first; i < points.Count; i++)
        {
            for (var j = i + 1; j < points.Count; j++)
            {
                var hours = (points[j].At - points[i].At).TotalHours;
                if (hours > 0)
                {
                    slopes.Add((points[j].Value - points[i].Value) / hours);
                }
            }
        }

        if (slopes.Count == 0)
        {
            return null;
        }

        slopes.Sort();
        var slope = slopes[slopes.Count / 2];
        var newest = points[^1].At;
        var residuals = points.Skip(first).Select(point => point.Value - slope * (point.At - newest).TotalHours).Order().ToArray();
        var level = residuals[residuals.Length / 2];
        var deviations = residuals.Select(value => Math.Abs(value - level)).Order().ToArray();
        return new Trend(slope, StandardError(slopes, n), level, 1.4826 * deviations[deviations.Length / 2]);
    }

    /// <summary>Half the 90 % interval of Sen (J. Am. Stat. Assoc. 63, 1968; normal approximation, from memory) as a standard error.</summary>
    private static double StandardError(List<double> sorted, int n)
    {
        var half = NinetyPercent * Math.Sqrt(n * (n - 1.0) * (2 * n + 5) / 18) / 2;
        var middle = sorted.Count / 2.0;
        var low = sorted[(int)Math.Clamp(middle - half, 0, sorted.Count - 1)];
        var high = sorted[(int)Math.Clamp(middle + half, 0, sorted.Count - 1)];
        return (high - low) / 2 / NinetyPercent;
    }
}
