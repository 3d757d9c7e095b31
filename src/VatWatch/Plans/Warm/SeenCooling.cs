namespace VatWatch.Plans.Warm;

/// <summary>How a vat cools that nobody heats, as the thermometer shows it: what says most of the hours until its heater goes on.</summary>
/// <param name="KPerHour">Rate of change in the middle of what was seen, K/h; below zero.</param>
/// <param name="SigmaKPerHour">Its standard deviation, K/h.</param>
/// <param name="MiddleC">The liquor then, °C.</param>
public sealed record SeenCooling(double KPerHour, double SigmaKPerHour, double MiddleC)
{
    /// <summary>What is older does not tell of the room and the lid of now.</summary>
    public static TimeSpan Longest { get; } = TimeSpan.FromMinutes(60);

    /// <summary>Less shows nothing.</summary>
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(12);

    private static readonly TimeSpan LongestGap = TimeSpan.FromMinutes(3);

    /// <summary>From one minute to the next nothing but a hand, water or goods moves a vat so far.</summary>
    private const double StepK = 0.3;

    /// <summary>Layers and a thermometer that creeps, K/h; set on a second physics, no source.</summary>
    private const double LeastSigmaKPerHour = 0.08;

    /// <summary>A coarse thermometer shows a slope as stairs: share of a stair by which the ends may be off.</summary>
    private const double StairShare = 0.4;

    /// <summary>The cooling in a row of means of a minute each, oldest first; null when the liquor does not cool, or was not seen for long enough.</summary>
    public static SeenCooling? In(IEnumerable<(DateTimeOffset At, double C)> minutes)
    {
        var all = minutes.ToList();
        var run = new List<(DateTimeOffset At, double C)>();
        var handK = Math.Max(StepK, 1.5 * Stair(all));
        foreach (var minute in all)
        {
            if (run.Count > 0 && (minute.At - run[^1].At > LongestGap || Math.Abs(minute.C - run[^1].C) > handK))
            {
                run.Clear();
            }

            run.Add(minute);
        }

        // What was heated before cools from its highest on.
        run.RemoveRange(0, Math.Max(0, run.FindLastIndex(minute => minute.C >= run.Max(one => one.C))));
        return run.Count > 2 && run[^1].At - run[0].At >= Shortest ? Line(run) : null;
    }

    private static SeenCooling? Line(List<(DateTimeOffset At, double C)> run)
    {
        var hours = run.ConvertAll(minute => (minute.At - run[0].At).TotalHours);
        var (meanT, meanC) = (hours.Average(), run.Average(minute => minute.C));
        var stt = hours.Sum(t => (t - meanT) * (t - meanT));
        var stc = run.Select((minute, i) => (hours[i] - meanT) * (minute.C - meanC)).Sum();
        var slope = stc / stt;
        var scatter = run.Select((minute, i) => minute.C - meanC - slope * (hours[i] - meanT)).Sum(off => off * off) / (run.Count - 2);
        var stairs = StairShare * Stair(run) / hours[^1];
        return slope < 0 ? new(slope, Math.Sqrt(scatter / stt + stairs * stairs + LeastSigmaKPerHour * LeastSigmaKPerHour), meanC) : null;
    }

    /// <summary>The least step that it shows, K; 0 before it has moved.</summary>
    internal static double Stair(List<(DateTimeOffset At, double C)> run) =>
        run.Zip(run.Skip(1), (one, next) => Math.Abs(next.C - one.C)).Where(step => step > 1e-3).DefaultIfEmpty(0).Min();
}
