using VatWatch.Science.Heat.Model;

namespace VatWatch.Plans.Warm;

/// <summary>
/// A warm-up as the thermometer showed it. What one mass with constant losses leaves out (layers, walls, evaporation, mains) is much the same from night to night, so
/// the last warm-ups say best how long the next takes; the heat balance carries that over to another start.
/// </summary>
/// <param name="From">Middle of the first of its points, UTC.</param>
/// <param name="Points">Means of a quarter of an hour each, without the ends, in which the heater may have been on for a part only: hours from the first, and °C, rising.</param>
public sealed record SeenWarmUp(DateTimeOffset From, IReadOnlyList<(double Hours, double C)> Points)
{
    /// <summary>From the heater's minute up to the first of <see cref="Points"/>, with hours below zero; empty where the heater went on unseen.</summary>
    public IReadOnlyList<(double Hours, double C)> Beginning { get; init; } = [];

    /// <summary>After so many kelvins, or a share of a rise, a warm-up has its lasting pace.</summary>
    private const double BeginningK = 3;
    private const double SeenBeginningShare = 0.4;
    private const double PlannedBeginningShare = 0.8;

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

    /// <summary>The newest counts so much more: what the liquor has lost or was given since is in it. Set on a second physics, no source.</summary>
    private const double NewestWeight = 1.5;

    /// <summary>Beyond its ends a warm-up goes on as its nearest third, at least so many kelvins, did.</summary>
    private const double LeastEndK = 3;
    private const double LeastShare = 0.4;
    private const double GreatestShare = 2.5;

    /// <summary>From its first to its last point, K.</summary>
    public double RiseK => Points[^1].C - Points[0].C;

    /// <summary>
    /// How long it takes by the last warm-ups and, where they do not reach, by a heat balance that is held to what the nearest part of them showed; null when it never ends.
    /// </summary>
    /// <param name="seen">The warm-ups, newest first.</param>
    /// <param name="fromC">Where this one begins, °C.</param>
    /// <param name="targetC">Where it ends, °C.</param>
    /// <param name="isBegun">Whether it has its lasting pace from the start, as one that was only interrupted.</param>
    /// <param name="balance">What the balance says of a time; null for never.</param>
    public static TimeSpan? Time(IReadOnlyList<SeenWarmUp> seen, double fromC, double targetC, bool isBegun, Func<double, double, TimeSpan?> balance)
    {
        var (sum, weights) = (0.0, 0.0);
        foreach (var one in seen.Take(MostHeard))
        {
            if ((isBegun ? Hours(one.Points, fromC, targetC, balance) : one.FromSwitchOn(fromC, targetC, balance)) is { } hours)
            {
                var weight = Math.Max(LeastWeightK, Math.Min(targetC, one.Points[^1].C) - Math.Max(fromC, one.Points[0].C)) * (one == seen[0] ? NewestWeight : 1);
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

    /// <summary>The same rise at another pace.</summary>
    /// <param name="pace">The pace wanted from the one that was seen at a moment, both K/h and above zero.</param>
    public SeenWarmUp At(Func<double, DateTimeOffset, double> pace)
    {
        var whole = Whole;
        var moved = new List<(double Hours, double C)> { whole[0] };
        foreach (var (from, to) in whole.Zip(whole.Skip(1)))
        {
            var (riseK, hours) = (to.C - from.C, to.Hours - from.Hours);
            moved.Add((moved[^1].Hours + riseK / pace(riseK / hours, From.AddHours(from.Hours + hours / 2)), to.C));
        }

        var begins = moved[^Points.Count].Hours;
        var points = moved.ConvertAll(point => (point.Hours - begins, point.C));
        return this with { Points = points[^Points.Count..], Beginning = points[..^Points.Count] };
    }

    /// <summary>The warm-ups in a row of means of a quarter of an hour each, oldest first; newest first.</summary>
    /// <param name="minutes">Means of a minute each between two moments, oldest first, which show when the heater went on; null where there are none.</param>
    public static IReadOnlyList<SeenWarmUp> In(IEnumerable<(DateTimeOffset At, double C)> quarters, Func<DateTimeOffset, DateTimeOffset, IEnumerable<(DateTimeOffset At, double C)>>? minutes = null)
    {
        var found = new List<SeenWarmUp>();
        var run = new List<(DateTimeOffset At, double C)>();
        foreach (var quarter in quarters)
        {
            if (run.Count > 0 && !Continues(run, quarter))
            {
                Close(run, found, minutes);
            }

            run.Add(quarter);
        }

        Close(run, found, minutes);
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

    private static void Close(List<(DateTimeOffset At, double C)> run, List<SeenWarmUp> found, Func<DateTimeOffset, DateTimeOffset, IEnumerable<(DateTimeOffset At, double C)>>? minutes)
    {
        if (run.Count >= 6 && run[^2].C - run[2].C >= LeastRiseK)
        {
            found.Add(new(run[2].At + Quarter / 2, [.. run.Skip(2).SkipLast(1).Select(point => ((point.At - run[2].At).TotalHours, point.C))])
            {
                Beginning = minutes is null ? [] : SeenBeginning.Of(run[0].At, run[2].At + Quarter / 2, minutes),
            });
        }

        run.Clear();
    }

    /// <summary>From the heater's minute on, where that was seen.</summary>
    private IReadOnlyList<(double Hours, double C)> Whole => [.. Beginning.Where(point => point.C < Points[0].C), .. Points];

    /// <summary>Hours of a warm-up whose heater goes on at a temperature: its beginning as this one's, from where that was over at its pace.</summary>
    private double? FromSwitchOn(double fromC, double targetC, Func<double, double, TimeSpan?> balance)
    {
        if (Beginning.Count == 0)
        {
            return Hours(Points, fromC, targetC, balance);
        }

        var all = Whole;
        var beganC = all[0].C;
        var overC = beganC + Math.Min(BeginningK, Math.Min(SeenBeginningShare * (all[^1].C - beganC), PlannedBeginningShare * (targetC - fromC)));
        return At(all, overC) is { } over ? over - all[0].Hours + Hours([(over, overC), .. all.SkipWhile(point => point.C <= overC)], fromC + (overC - beganC), targetC, balance) : null;
    }

    private static double? Hours(IReadOnlyList<(double Hours, double C)> points, double fromC, double targetC, Func<double, double, TimeSpan?> balance)
    {
        var (first, last) = (points[0].C, points[^1].C);
        var endK = Math.Min(last - first, Math.Max(LeastEndK, (last - first) / 3));
        var (low, high) = (Math.Clamp(fromC, first, last), Math.Clamp(targetC, first, last));
        return (high > low ? Hours(points, low, high) : 0)
            + Beyond(points, (fromC, Math.Min(targetC, first)), (first, first + endK), balance)
            + Beyond(points, (Math.Max(fromC, last), targetC), (last - endK, last), balance);
    }

    /// <summary>Hours of a stretch that it does not cover, by how the balance fits a stretch that it does.</summary>
    private static double? Beyond(IReadOnlyList<(double Hours, double C)> points, (double FromC, double ToC) asked, (double FromC, double ToC) covered, Func<double, double, TimeSpan?> balance) =>
        asked.FromC >= asked.ToC ? 0
        : balance(asked.FromC, asked.ToC) is { } foretold && balance(covered.FromC, covered.ToC) is { TotalHours: > 0 } fitted && Hours(points, covered.FromC, covered.ToC) is { } took
            ? foretold.TotalHours * Math.Clamp(took / fitted.TotalHours, LeastShare, GreatestShare)
        : null;

    private static double? Hours(IReadOnlyList<(double Hours, double C)> points, double fromC, double toC) => At(points, fromC) is { } from && At(points, toC) is { } to ? to - from : null;

    private static double? At(IReadOnlyList<(double Hours, double C)> points, double c)
    {
        for (var i = 1; i < points.Count; i++)
        {
            if (points[i - 1].C <= c && c <= points[i].C)
            {
                return points[i - 1].Hours + (c - points[i - 1].C) / (points[i].C - points[i - 1].C) * (points[i].Hours - points[i - 1].Hours);
            }
        }

        return null;
    }

    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);
}
