using VatWatch.Conditions.Liquor;

namespace VatWatch.Conditions.Reduction;

/// <summary>
/// Slope by Theil and Sen: the median of the slopes between all pairs of points, indifferent to up to 29 % of outliers. The cost is bounded
/// by <see cref="MostPoints"/>.
/// </summary>
internal static class RobustSlope
{
    /// <summary>60 points make 1770 pairs, about 0.02 ms.</summary>
    public const int MostPoints = 60;

    private const double NinetyPercent = 1.645;

    /// <summary>Through at most <see cref="MostPoints"/> points, the newest; null with fewer than four or all at one moment.</summary>
    /// <returns>Slope per hour, its standard error (from Sen's rank interval), the line's value at the newest point, and the scatter about it.</returns>
    public static Trend? Through(ReadOnlySpan<TimedValue> points)
    {
        points = points[Math.Max(0, points.Length - MostPoints)..];
        var n = points.Length;
        if (n < 4)
        {
            return null;
        }

        Span<double> slopes = stackalloc double[n * (n - 1) / 2];
        var count = Slopes(points, slopes);
        if (count == 0)
        {
            return null;
        }

        slopes = slopes[..count];
        var slope = RankedValues.At(slopes, count / 2);
        var newest = points[^1].At;
        Span<double> residuals = stackalloc double[n];
        for (var i = 0; i < n; i++)
        {
            residuals[i] = points[i].Value - slope * (points[i].At - newest).TotalHours;
        }

        var level = RankedValues.At(residuals, n / 2);
        foreach (ref var residual in residuals)
        {
            residual = Math.Abs(residual - level);
        }

        return new Trend(slope, StandardError(slopes, n), level, 1.4826 * RankedValues.At(residuals, n / 2));
    }

    private static int Slopes(ReadOnlySpan<TimedValue> points, Span<double> slopes)
    {
        var count = 0;
        for (var i = 0; i < points.Length; i++)
        {
            for (var j = i + 1; j < points.Length; j++)
            {
                var hours = (points[j].At - points[i].At).TotalHours;
                if (hours > 0)
                {
                    slopes[count++] = (points[j].Value - points[i].Value) / hours;
                }
            }
        }

        return count;
    }

    /// <summary>Half the 90 % interval of Sen (J. Am. Stat. Assoc. 63, 1968; normal approximation, from memory) as a standard error.</summary>
    private static double StandardError(Span<double> slopes, int n)
    {
        var half = NinetyPercent * Math.Sqrt(n * (n - 1.0) * (2 * n + 5) / 18) / 2;
        var middle = slopes.Length / 2.0;

        // The search for the middle one has put the smaller before it and the larger after it.
        var at = slopes.Length / 2;
        var low = RankedValues.At(slopes[..(at + 1)], (int)Math.Clamp(middle - half, 0, at));
        var high = RankedValues.At(slopes[at..], (int)Math.Clamp(middle + half, at, slopes.Length - 1) - at);
        return (high - low) / 2 / NinetyPercent;
    }
}

/// <summary>A value at a monotonic time.</summary>
internal readonly record struct TimedValue(TimeSpan At, double Value);
