namespace VatWatch.Plans.Warm;

/// <summary>How far the vat has fallen since it was last held warm: a day's work with its lid off and goods in it, and the hours after.</summary>
/// <param name="FromC">Where the fall began, °C.</param>
/// <param name="ToC">Where it has come to, °C.</param>
/// <param name="Hours">Time between.</param>
public sealed record SeenFall(double FromC, double ToC, double Hours)
{
    /// <summary>A fall began within so long; one that is shorter than <see cref="Shortest"/> tells no more than the last hour does.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromHours(20);
    private static readonly TimeSpan Shortest = TimeSpan.FromHours(2);

    private const double LeastFallK = 2;

    /// <summary>So near its highest it was held, or had just been; so near its lowest it is not being heated again.</summary>
    private const double HeldK = 1;
    private const double LowestK = 0.5;

    /// <summary>From one quarter of an hour to the next only cold water takes so much, K.</summary>
    private const double WaterK = 2;
    private static readonly TimeSpan Next = TimeSpan.FromMinutes(20);

    /// <summary>The fall that goes on at the end of a row of means, oldest first, gaps allowed; null where the vat does not fall.</summary>
    public static SeenFall? In(IEnumerable<(DateTimeOffset At, double C)> means)
    {
        var all = means.ToList();
        var to = all.LastOrDefault();
        all.RemoveAll(one => one.At <= to.At - Longest);
        all.RemoveRange(0, 1 + Enumerable.Range(0, Math.Max(0, all.Count - 1)).LastOrDefault(i => all[i].C - all[i + 1].C > WaterK && all[i + 1].At - all[i].At <= Next, -1));
        var before = all.FindAll(one => one.At <= to.At - Shortest);
        if (before.Count == 0)
        {
            return null;
        }

        var topC = before.Max(one => one.C);
        var from = before.FindLast(one => one.C >= topC - HeldK);
        return from.C - to.C >= LeastFallK && to.C <= all.Min(one => one.C) + LowestK ? new(from.C, to.C, (to.At - from.At).TotalHours) : null;
    }
}
