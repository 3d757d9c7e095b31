namespace VatWatch.Plans.Warm;

/// <summary>
/// The beginning of a warm-up from the minute its heater went on. A plume gathers its heat at the top before it reaches what lies below, so a thermometer rises at another pace at first than later:
/// a head start or a delay, as high as the plume is warmer than the liquor, that comes with every warm-up however warm the vat was.
/// </summary>
internal static class SeenBeginning
{
    /// <summary>How long before the first quarter that rises the heater may have gone on, and how long after its end nothing may show.</summary>
    private static readonly TimeSpan Before = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan After = TimeSpan.FromMinutes(45);

    private static readonly TimeSpan LongestGap = TimeSpan.FromMinutes(3);

    /// <summary>Less, K, or half a step of the thermometer, is no rise.</summary>
    private const double LeastRiseK = 0.06;
    private const double StairShare = 0.5;

    /// <summary>A vat that was seen standing for fewer minutes may have been heated before.</summary>
    private const int LeastStanding = 2;

    /// <summary>Means of so many minutes are points.</summary>
    private const int PointMinutes = 5;

    /// <summary>Points from the heater's minute on, rising, in hours from <paramref name="zero"/>; empty where it went on unseen.</summary>
    /// <param name="firstQuarter">Begin of the first quarter of an hour that belongs to the rise.</param>
    /// <param name="zero">Where the points end.</param>
    /// <param name="minutes">Means of a minute each between two moments, oldest first.</param>
    public static IReadOnlyList<(double Hours, double C)> Of(
        DateTimeOffset firstQuarter, DateTimeOffset zero, Func<DateTimeOffset, DateTimeOffset, IEnumerable<(DateTimeOffset At, double C)>> minutes)
    {
        var seen = Unbroken(minutes(firstQuarter - Before, firstQuarter + TimeSpan.FromMinutes(15) + After), zero);
        if (seen.Count == 0)
        {
            return [];
        }

        var standsC = seen.Min(minute => minute.C) + Math.Max(LeastRiseK, StairShare * SeenCooling.Stair(seen));
        var last = seen.FindLastIndex(minute => minute.C <= standsC);
        if (last < LeastStanding)
        {
            return [];
        }

        var points = new List<(double Hours, double C)> { ((seen[last].At.AddMinutes(1) - zero).TotalHours, seen[last].C) };
        foreach (var five in seen.Skip(last + 1).TakeWhile(minute => minute.At < zero).Chunk(PointMinutes).Where(five => five.Length == PointMinutes))
        {
            var c = five.Average(minute => minute.C);
            if (c > points[^1].C)
            {
                points.Add(((five[0].At.AddMinutes(PointMinutes / 2.0) - zero).TotalHours, c));
            }
        }

        return points;
    }

    /// <summary>What was seen without a gap about the first rise.</summary>
    private static List<(DateTimeOffset At, double C)> Unbroken(IEnumerable<(DateTimeOffset At, double C)> minutes, DateTimeOffset zero)
    {
        var run = new List<(DateTimeOffset At, double C)>();
        foreach (var minute in minutes)
        {
            if (run.Count > 0 && minute.At - run[^1].At > LongestGap)
            {
                if (minute.At >= zero)
                {
                    break;
                }

                run.Clear();
            }

            run.Add(minute);
        }

        return run;
    }
}
