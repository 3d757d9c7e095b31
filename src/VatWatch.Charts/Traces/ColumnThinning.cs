namespace VatWatch.Charts.Traces;

/// <summary>Leaves of a run only what a picture can show: per pixel column the first, lowest, highest and last point, so that no spike is lost.</summary>
internal static class ColumnThinning
{
    /// <summary>Thins <paramref name="points"/>, which are in order of time.</summary>
    /// <param name="points">One run.</param>
    /// <param name="secondsPerColumn">Width of a pixel column, s; above 0.</param>
    /// <returns>At most four points per column, unaltered and in order of time.</returns>
    public static IReadOnlyList<TracePoint> Thin(IReadOnlyList<TracePoint> points, double secondsPerColumn)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(secondsPerColumn);
        var kept = new List<TracePoint>();
        for (var first = 0; first < points.Count;)
        {
            var column = Math.Floor(points[first].Seconds / secondsPerColumn);
            var (low, high, last) = (first, first, first);
            for (var next = first + 1; next < points.Count && Math.Floor(points[next].Seconds / secondsPerColumn) == column; next++)
            {
                last = next;
                if (points[next].Value < points[low].Value)
                    low = next;
                if (points[next].Value > points[high].Value)
                    high = next;
            }

            Keep(points, kept, first, Math.Min(low, high), Math.Max(low, high), last);
            first = last + 1;
        }

        return kept;
    }

    private static void Keep(IReadOnlyList<TracePoint> points, List<TracePoint> kept, params ReadOnlySpan<int> ascending)
    {
        var previous = -1;
        foreach (var index in ascending)
        {
            if (index != previous)
                kept.Add(points[index]);
            previous = index;
        }
    }
}
