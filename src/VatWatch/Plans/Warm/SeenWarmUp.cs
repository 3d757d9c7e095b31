using VatWatch.Science.Heat.Model;

namespace VatWatch.Plans.Warm;

/// <summary>
/// A warm-up as the thermometer showed it. What one mass with constant losses leaves out (layers, walls, evaporation, mains) is much the same from night to night, so
/// the last warm-ups say best how long the next takes; the heat balance carries that over to another start.
/// </summary>
/// <param name="Points">Means of a quarter of an hour each, without the ends, in which the heater may have been on for a part only: hours from the first, and °C, rising.</param>
public sealed record SeenWarmUp(IReadOnlyList<(double Hours, double C)> Points)
{
    /// <summary>How far back a warm-up still tells of the next.</summary>
    public static TimeSpan Lookback { get; } = TimeSpan.FromDays(14);

    /// <summary>A lesser rise is a heater that holds a vat.</summary>
    private const double LeastRiseK = 4;

    /// <summary>A quarter that rises less than this, K, or than a share of the steepest before it, ends a warm-up.</summary>
    private const double LeastStepK = 0.12;
    private const double LeastStepShare = 0.3;

    /// <summary>So many of the last are heard; each counts by the kelvins that it shares with the one planned, at least by <see cref="LeastWeightK"/>.</summary>
    private const int MostHeard = 3;
    private const double LeastWeightK = 1;

    /// <summary>Beyond its ends a warm-up goes on as its nearest third, at least so many kelvins, did.</summary>
    private const double LeastEndK = 3;
    private const double LeastShare = 0.4;
    private const double GreatestShare = 2.5;

    /// <summary>From its first to its last point, K.</summary>
    public double RiseK => Points[^1].C - Points[0].C;

    /// <summary>Hours from one temperature to a higher one; null when it does not cover both.</summary>
    public double? Hours(double fromC, double toC) => At(fromC) is { } from && At(toC) is { } to ? to - from : null;

    /// <summary>
    /// How long a warm-up takes by the last ones and, where they do not reach, by a heat balance that is held to what the nearest part of them showed; null when it never ends.
    /// </summary>
    /// <param name="seen">The warm-ups, newest first.</param>
    /// <param name="fromC">Where this one begins, °C.</param>
    /// <param name="targetC">Where it ends, °C.</param>
    /// <param name="balance">What the balance says of a time; null for never.</param>
    public static TimeSpan? Time(IReadOnlyList<SeenWarmUp> seen, double fromC, double targetC, Func<double, double, TimeSpan?> balance)
    {
        var (sum, weights) = (0.0, 0.0);
        foreach (var one in seen.Take(MostHeard))
        {
            if (one.Hours(fromC, targetC, balance) is { } hours)
            {
                var weight = Math.Max(LeastWeightK, Math.Min(targetC, one.Points[^1].C) - Math.Max(fromC, one.Points[0].C));
                sum += weight * hours;
                weights += weight;
            }
        }

        return weights > 0 ? TimeSpan.FromHours(sum / weights) : balance(fromC, targetC);
    }

    /// <summary>A balance with the power that the warm-ups show: it shares an error between power and losses, and a warm-up is where both are felt.</summary>
    /// <param name="seen">The warm-ups, newest first.</param>
    /// <param name="balance">The balance without them.</param>
    public static FirstOrderVat Balance(IReadOnlyList<SeenWarmUp> seen, FirstOrderVat balance)
    {
        if (seen.Count == 0)
        {
            return balance;
        }

        var heard = seen.Take(MostHeard).ToList();
        var rateW = heard.Average(one => one.RiseK / one.Points[^1].Hours) / 3600 * balance.CapacityJPerK;
        return new(Math.Max(0, rateW + balance.HoldingW(heard.Average(one => one.Points.Average(point => point.C)))), balance.LossWPerK, balance.CapacityJPerK, balance.AmbientC);
    }

    /// <summary>The warm-ups in a row of means of a quarter of an hour each, oldest first; newest first.</summary>
    public static IReadOnlyList<SeenWarmUp> In(IEnumerable<(DateTimeOffset At, double C)> quarters)
    {
        var found = new List<SeenWarmUp>();
        var run = new List<(DateTimeOffset At, double C)>();
        foreach (var quarter in quarters)
        {
            if (run.Count > 0 && !Continues(run, quarter))
            {
                Close(run, found);
            }

            run.Add(quarter);
        }

        Close(run, found);
        found.Reverse();
        return found;
    }

    private static bool Continues(List<(DateTimeOffset At, double C)> run, (DateTimeOffset At, double C) next)
    {
        var steepest = 0.0;
        for (var i = 1; i < run.Count; i++)
        {
            steepest = Math.Max(steepest, run[i].C - run[i - 1].C);
        }

        return next.At - run[^1].At == Quarter && next.C - run[^1].C >= Math.Max(LeastStepK, LeastStepShare * steepest);
    }

    private static void Close(List<(DateTimeOffset At, double C)> run, List<SeenWarmUp> found)
    {
        if (run.Count >= 6 && run[^2].C - run[2].C >= LeastRiseK)
        {
            found.Add(new([.. run.Skip(2).SkipLast(1).Select(point => ((point.At - run[2].At).TotalHours, point.C))]));
        }

        run.Clear();
    }

    private double? Hours(double fromC, double targetC, Func<double, double, TimeSpan?> balance)
    {
        var (first, last) = (Points[0].C, Points[^1].C);
        var endK = Math.Min(RiseK, Math.Max(LeastEndK, RiseK / 3));
        var (low, high) = (Math.Clamp(fromC, first, last), Math.Clamp(targetC, first, last));
        return (high > low ? Hours(low, high) : 0)
            + Beyond(fromC, Math.Min(targetC, first), first, first + endK, balance)
            + Beyond(Math.Max(fromC, last), targetC, last - endK, last, balance);
    }

    /// <summary>Hours of a stretch that it does not cover, by how the balance fits a stretch that it does.</summary>
    private double? Beyond(double fromC, double toC, double coveredFromC, double coveredToC, Func<double, double, TimeSpan?> balance) =>
        fromC >= toC ? 0
        : balance(fromC, toC) is { } foretold && balance(coveredFromC, coveredToC) is { TotalHours: > 0 } fitted && Hours(coveredFromC, coveredToC) is { } took
            ? foretold.TotalHours * Math.Clamp(took / fitted.TotalHours, LeastShare, GreatestShare)
        : null;

    private double? At(double c)
    {
        for (var i = 1; i < Points.Count; i++)
        {
            if (Points[i - 1].C <= c && c <= Points[i].C)
            {
                return Points[i - 1].Hours + (c - Points[i - 1].C) / (Points[i].C - Points[i - 1].C) * (Points[i].Hours - Points[i - 1].Hours);
            }
        }

        return null;
    }

    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);
}
