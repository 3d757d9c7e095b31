using VatWatch.Nights.Physics;
using VatWatch.Nights.Scenes;
using VatWatch.Plans.Day;
using VatWatch.Vats;

namespace VatWatch.Nights.Scoring;

/// <summary>How well the plan of a day's batches foretells its end on a vat that was watched for two nights.</summary>
/// <param name="PlannedMinutes">From its beginning to the end foretold.</param>
/// <param name="TookMinutes">The same as it was played.</param>
internal sealed record DayScore(int Seed, string Story, double PlannedMinutes, double TookMinutes)
{
    /// <summary>By how much of the time foretold the day was longer; negative for shorter.</summary>
    public double Error => TookMinutes / PlannedMinutes - 1;

    /// <summary>
    /// Plans a day and plays it as a dyer does who keeps to its rules but reads the thermometer: a stir half an hour before work, the heater and the lid off while goods are in, the next dip when the liquor has
    /// had its time to clear, shows what the plan wanted of it, and its load has been aired. Null when the plan was refused.
    /// </summary>
    public static DayScore? Of(int seed)
    {
        var night = PlannedNight.Make(seed);
        var studio = night.Studio;
        var chance = new Chance(unchecked(seed * 31 + 7));
        var watched = new WatchedStudio(studio);
        if (night.Warm() is null)
            return null;

        studio.Heater.Thermostat = new Thermostat(chance.Fork()) { Setting = night.Target, Differential = 0.5, Scatter = 0.05, BulbLag = 30, BulbHeight = studio.Thermometer.Height };
        studio.Liquor.Stir();
        studio.Pass(30);
        var seen = watched.LookBack();
        var heat = watched.Look().Seen(watched.Vat, seen.WarmUps).At(studio.Now, seen.Room, TimeZoneInfo.Utc);
        var (vat, litres) = (watched.Vat, studio.Plan.Body.Litres);
        var wish = new DayWish([.. Enumerable.Range(0, chance.OneOf(1, 2, 3)).Select(_ => new Goods(1000 * litres * chance.Uniform(0.005, 0.05), "wool", chance.OneOf(2, 3, 4, 6)))], studio.Now, studio.Shown);
        if (new DayPlanner(vat, heat, DisplayUnits.Si).Plan(wish).Plan is not { } plan)
            return null;
        Play(studio, plan, wish);
        return new DayScore(
            seed, $"{studio.Story()}; {plan.Loads.Count} loads, {plan.Dips.Count()} dips, {plan.Rests.Count} rests", (plan.Ends - plan.Begins).TotalMinutes, (studio.Now - plan.Begins).TotalMinutes);
    }

    private static void Play(Studio studio, DayPlan plan, DayWish wish)
    {
        var aired = new Dictionary<int, DateTimeOffset>();
        var rests = new Queue<(DateTimeOffset From, DateTimeOffset To)>(plan.Rests);
        var cleared = studio.Now;
        foreach (var dip in plan.Dips)
        {
            if (rests.TryPeek(out var rest) && rest.From <= dip.In)
            {
                rests.Dequeue();
                studio.Pass((rest.To - rest.From).TotalMinutes);
            }

            studio.Pass(Math.Max(0, (cleared - studio.Now).TotalMinutes));
            studio.Pass(Math.Max(0, (aired.GetValueOrDefault(dip.Load) - studio.Now).TotalMinutes));

            // What the thermometer shows wanders by a tenth or two: nobody waits for that.
            studio.PassUntil(12 * 60, () => studio.Shown >= Math.Min(dip.LiquorC, NeededC(studio, plan, dip)) - 0.2);
            (studio.Heater.SwitchedOn, studio.Liquor.LidOn) = (false, false);
            studio.Yarn(3.25 * plan.Loads[dip.Load - 1].Goods.Grams / 1000, 0.005);
            studio.Pass(wish.Dip.TotalMinutes);
            studio.Yarn(null, 0);
            (studio.Heater.SwitchedOn, studio.Liquor.LidOn) = (true, studio.Plan.Lidded);
            cleared = studio.Now + wish.Recovery;
            aired[dip.Load] = studio.Now + wish.Airing;
        }

        studio.Pass(Math.Max(0, (aired.Values.Max() - studio.Now).TotalMinutes));
    }

    /// <summary>What the rule wants of the liquor: after mixing with goods at the room's warmth it is at the bottom of the band.</summary>
    private static double NeededC(Studio studio, DayPlan plan, PlannedDip dip) =>
        studio.Plan.Low + 3.25 * 3500 * plan.Loads[dip.Load - 1].Goods.Grams / 1000 / (studio.Plan.Body.Litres * Water.HeatCapacity) * Math.Max(0, studio.Plan.Low - studio.Room.Celsius);
}
