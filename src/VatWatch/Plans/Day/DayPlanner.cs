using VatWatch.Conditions.Heating;
using VatWatch.Plans.Warm;
using VatWatch.Science.Heat;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Plans.Day;

/// <summary>
/// Plans a day's batches: divides goods into loads that have room in the liquor, puts the darkest first, and lets one load dip while others air. A dip waits until the
/// liquor has cleared and is so warm that the cold wet goods do not take it below its band; the heater works, and the lid is on, only while no goods are in
/// (<see cref="DipPlan"/>).
/// Pure: no clock, no store.
/// </summary>
/// <param name="units">The dyer's units, for refusals.</param>
public sealed class DayPlanner(VatDefinition vat, VatHeat heat, DisplayUnits units)
{
    /// <summary>Liquor for each kilogram of dry goods, so that they hang free and colour evenly: common practice, no source.</summary>
    public const double LitresPerKilogram = 30;

    /// <summary>A vat rests so long after three hours' work (Mairet, A Book on Vegetable Dyes, 1916); for the last dip of a day alone nobody waits an hour, and the vat rests after it.</summary>
    public static TimeSpan Rest { get; } = TimeSpan.FromHours(1);

    private const double BandSigmas = 1.645;

    /// <summary>A thermostat lets the liquor fall by about so much before it heats again: no dip is to need the last of it. Judgement, no source.</summary>
    private const double ThermostatK = 0.8;

    /// <summary>How much sooner and later than its middle a liquor clears; less where that was measured. Judgement, no source.</summary>
    private const double UsualRecoverySpread = 0.5;
    private const double MeasuredRecoverySpread = 0.25;

    private const int MostLoads = 60;
    private static readonly TimeSpan LongestDay = TimeSpan.FromHours(48);
    private const double WaterShare = (DipOutlook.LeastWater + DipOutlook.MostWater) / 2;

    /// <summary>Largest load, dry g: room in the liquor, and a first dip that leaves it in its band.</summary>
    public double LargestLoadGrams(double liquorC)
    {
        var room = vat.VolumeLitres / LitresPerKilogram * 1000;
        var each = Yarn(1000);
        var dropPerKilogram = each.CapacityJPerK * Math.Max(1, vat.Temperature.LowC - each.TemperatureC);
        var warmth = heat.CapacityJPerK * Math.Max(0, liquorC - ThermostatK - vat.Temperature.LowC);
        return Math.Min(room, 1000 * warmth / dropPerKilogram);
    }

    /// <summary>The plan, or why there is none, as a sentence.</summary>
    public (DayPlan? Plan, string? Refused) Plan(DayWish wish)
    {
        var largest = LargestLoadGrams(wish.LiquorC);
        if (wish.LiquorC <= vat.Temperature.LowC || largest < 1)
        {
            return (null, $"{vat.Name} would be at {units.Temperature(wish.LiquorC)}, not above the {units.Temperature(vat.Temperature.LowC)} that it dyes at: warm it first.");
        }

        if (wish.LiquorC >= vat.Temperature.LimitC)
        {
            return (null, $"{vat.Name} would be at {units.Temperature(wish.LiquorC)}, not below its limit of {units.Temperature(vat.Temperature.LimitC)}: let it cool first.");
        }

        var loads = Loads(wish.Goods, largest);
        if (loads.Count > MostLoads)
        {
            return (null, $"That makes {loads.Count} loads of at most {units.Goods(largest)}; one plan holds {MostLoads}. Plan it as several days.");
        }

        var dips = loads.Sum(load => load.Goods.Dips);
        if (dips * (wish.Dip + wish.Recovery) > LongestDay)
        {
            return (null, $"That makes {dips} dips in {DisplayUnits.Count(loads.Count, "load")}, which take longer than {DisplayUnits.Duration(LongestDay)}. Plan it as several days.");
        }

        var spread = wish.RecoveryIsMeasured ? MeasuredRecoverySpread : UsualRecoverySpread;
        if (Play(wish, loads, 0, 1) is not { } day)
        {
            return (null, $"The heater of {vat.Name} does not bring the liquor back to {units.Temperature(wish.LiquorC)} between dips within the day; plan for less goods, or a cooler liquor.");
        }

        return (day with { EndsEarly = (Play(wish, loads, 1, 1 - spread) ?? day).Ends, EndsLate = Play(wish, loads, -1, 1 + spread)?.Ends }, null);
    }

    private static List<(Goods Goods, int Of)> Loads(IReadOnlyList<Goods> goods, double largest) =>
    [
        .. goods.OrderByDescending(one => one.Dips).SelectMany(one =>
        {
            var count = (int)Math.Min(MostLoads + 1, Math.Ceiling(one.Grams / largest - 1e-9));
            return Enumerable.Repeat((one with { Grams = one.Grams / count }, count), count);
        }),
    ];

    /// <summary>Plays the day at one edge of what is known; null when the liquor does not come back in time.</summary>
    private DayPlan? Play(DayWish wish, List<(Goods Goods, int Of)> loads, int edge, double recoveryShare)
    {
        var power = Math.Max(0, heat.PowerW + edge * BandSigmas * heat.PowerSigmaW);
        var lossMargin = edge * BandSigmas * heat.LossSigmaWPerK;
        var covered = new FirstOrderVat(power, Math.Max(0, heat.LossWPerK - lossMargin), heat.CapacityJPerK / heat.MixedShare, heat.RoomC);
        var open = new FirstOrderVat(0, Math.Max(0, heat.OpenLossWPerK - lossMargin), heat.CapacityJPerK, heat.LikelyRoomC);
        var dips = loads.Select((_, index) => new List<PlannedDip>(loads[index].Goods.Dips)).ToList();
        var aired = new TimeSpan[loads.Count];
        var rests = new List<(DateTimeOffset, DateTimeOffset)>();
        var (done, dipsInAll, given) = (0, loads.Sum(load => load.Goods.Dips), new List<PlannedAddition>());
        var (now, workedSince, liquorC, free) = (TimeSpan.Zero, TimeSpan.Zero, wish.LiquorC, TimeSpan.Zero);
        while (Next() is { } load)
        {
            var needsC = NeededC(Yarn(loads[load].Goods.Grams));
            var works = Give(done);
            if (done + 1 < dipsInAll && TimeMath.Max(free, aired[load]) + wish.Dip - workedSince > DipPlan.WorkingTime)
            {
                rests.Add((wish.Begins + now, wish.Begins + now + Rest));
                Pass(now + Rest);
                workedSince = now;
                free = now;
            }

            free = TimeMath.Max(free, works);

            var ready = TimeMath.Max(free, aired[load]);
            Pass(ready);
            if (liquorC < needsC)
            {
                if (!covered.TryTimeTo(liquorC, needsC, out var seconds) || seconds > LongestDay.TotalSeconds)
                {
                    return null;
                }

                Pass(now + TimeSpan.FromSeconds(seconds));
            }

            var yarn = Yarn(loads[load].Goods.Grams);
            var (inAt, beforeC) = (now, liquorC);
            liquorC = open.TemperatureAfter(liquorC - yarn.DropK(heat.CapacityJPerK, liquorC), wish.Dip.TotalSeconds);
            now += wish.Dip;
            done++;
            aired[load] = now + wish.Airing;
            dips[load].Add(new(load + 1, dips[load].Count + 1, wish.Begins + inAt, wish.Begins + now, wish.Begins + aired[load], beforeC, liquorC, inAt - free));
            free = now + wish.Recovery * recoveryShare;
            if (now > LongestDay)
            {
                return null;
            }
        }

        var ends = wish.Begins + aired.Max();
        return new DayPlan
        {
            Begins = wish.Begins,
            Loads = [.. loads.Select((load, index) => new PlannedLoad(index + 1, load.Goods, load.Of, dips[index]))],
            Ends = ends,
            EndsEarly = ends,
            Rests = rests,
            Additions = given,
        };

        // What is given works while a vat that is to rest then rests.
        TimeSpan Give(int after)
        {
            var works = TimeSpan.Zero;
            foreach (var (_, wait, doses) in wish.Additions.Where(one => one.AfterDips == after))
            {
                given.Add(new(after, wish.Begins + now, wish.Begins + now + wait, doses));
                works = TimeMath.Max(works, now + wait);
            }

            return works;
        }

        // The darkest load that has been aired when the liquor is ready; else the one that is aired first.
        int? Next()
        {
            var unfinished = Enumerable.Range(0, loads.Count).Where(index => dips[index].Count < loads[index].Goods.Dips).ToList();
            return unfinished.Count == 0 ? null
                : unfinished.Where(index => aired[index] <= free).Select(index => (int?)index).FirstOrDefault() ?? unfinished.MinBy(index => aired[index]);
        }

        void Pass(TimeSpan until)
        {
            if (until > now)
            {
                // A thermostat, or a hand, keeps it at the warmth that work began with.
                liquorC = Math.Min(covered.TemperatureAfter(liquorC, (until - now).TotalSeconds), Math.Max(wish.LiquorC, liquorC));
                now = until;
            }
        }
    }

    /// <summary>How warm the liquor must be so that it is at the bottom of its band when the goods are in.</summary>
    private double NeededC(WetYarn yarn) =>
        vat.Temperature.LowC + yarn.CapacityJPerK / heat.CapacityJPerK * Math.Max(0, vat.Temperature.LowC - yarn.TemperatureC);

    private WetYarn Yarn(double grams) => new(grams / 1000, WaterShare * grams / 1000, Math.Clamp(heat.LikelyRoomC, 0, 60));
}
