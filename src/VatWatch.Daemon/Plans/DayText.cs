using VatWatch.Conditions.Heating;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Plans;

/// <summary>A day's plan in words, for the verb and the page.</summary>
/// <param name="heat">What the plan rests on.</param>
public sealed class DayText(VatDefinition vat, VatHeat heat, DayWish wish, DayPlan plan, DisplayUnits units, TimeZoneInfo zone)
{
    /// <summary>A load in a line, for example "1: 0.45 kg cotton, 6 dips (1 of 2)".</summary>
    public static string Load(PlannedLoad load, DisplayUnits units)
    {
        var which = load.Of > 1 ? $" (one of {load.Of} loads)" : "";
        return $"{load.Number}: {units.Goods(load.Goods.Grams)} {load.Goods.Kind}, {load.Goods.Dips} {(load.Goods.Dips == 1 ? "dip" : "dips")}{which}";
    }

    public static string Dip(DayPlan plan, PlannedDip dip, DisplayUnits units, TimeZoneInfo zone) =>
        $"{Begin(plan, dip.In, zone)} to {Clock(dip.Out, zone)}  load {dip.Load}, dip {dip.Number} of {plan.Loads[dip.Load - 1].Goods.Dips}; air until {Clock(dip.Aired, zone)}; liquor {units.FromCelsius(dip.LiquorC):0.0} to {units.Temperature(dip.CooledC)}";

    /// <summary>Every dip and rest in order of time, with the time it begins.</summary>
    public IEnumerable<(DateTimeOffset At, string Line)> Lines() =>
        plan.Dips.Select(dip => (dip.In, Dip(plan, dip, units, zone)))
            .Concat(plan.Additions.Select(addition => (addition.From, $"{Begin(plan, addition.From, zone)} to {Clock(addition.To)}  {Addition(addition, units)}")))
            .Concat(plan.Rests.Select(rest => (rest.From, $"{Begin(plan, rest.From, zone)} to {Clock(rest.To)}  the vat rests, covered")))
            .OrderBy(line => line.Item1);

    /// <summary>What is added, as people are told to do it.</summary>
    public static string Addition(PlannedAddition addition, DisplayUnits units) => $"add {string.Join(", ", addition.Doses.Select(dose => Dose(dose, units)))}; stir gently, lid on";

    private static string Dose(PlannedDose dose, DisplayUnits units)
    {
        var material = EnumWord.Find<Material>(dose.Material) ?? Material.Water;
        var indigo = material == Material.Stock ? $" with {units.Mass(dose.Amount * DayAdditions.StockGramsPerLitre)} of indigo" : "";
        return $"{material.Amount(dose.Amount, units)} of {material.Name()}{indigo}";
    }

    /// <summary>When it ends, with its range.</summary>
    public string Ends => $"{Begin(plan, plan.Ends, zone)}; may be {Clock(plan.EndsEarly)} {(plan.EndsLate is { } late ? $"to {Clock(late)}" : "or much later")}";

    /// <summary>That the liquor must be warmed first, or that nobody knows how warm it is; null where it is warm.</summary>
    public string? Warm =>
        wish.WhyUnknown is { } why ? $"How warm the liquor is now is not known: {why}. It is to be at {units.Temperature(wish.LiquorC)} when work begins; see to its probe first."
        : wish.ColdC is { } coldC ? $"The liquor is at {units.Temperature(coldC)} now: it is to be at {units.Temperature(wish.LiquorC)} when work begins; the plan of the night says when to heat."
        : null;

    /// <summary>What it rests on, a sentence each.</summary>
    public IEnumerable<string> Assumptions()
    {
        if (Warm is { } warm)
        {
            yield return warm;
        }

        if (DayAdditions.AreTooMany(plan))
        {
            yield return "By the ledger the vat is too weak for these goods: something would have to go in after most dips. Sharpen it first, let it rest, and plan again.";
        }

        yield return $"Work begins at {Clock(plan.Begins)} with the liquor at {units.Temperature(wish.LiquorC)}, and a thermostat or a hand keeps it there; the heater and the lid are on only while no goods are in.";
        yield return "The liquor is stirred gently half an hour before, and the heater has its time: below it the liquor may be far colder than the thermometer shows, which the first goods would mix in.";
        yield return $"A load holds at most {units.Goods(new DayPlanner(vat, heat, units).LargestLoadGrams(wish.LiquorC))} of dry goods: {(units.IsUs ? $"{units.Volume(DayPlanner.LitresPerKilogram * 16 * DisplayUnits.GramsPerOunce / 1000)} of liquor for each pound" : $"{units.Volume(DayPlanner.LitresPerKilogram)} of liquor for each kilogram")} (common practice, no source), and a first dip that does not take the liquor below {units.Temperature(vat.Temperature.LowC)}.";
        yield return $"A dip takes {DisplayUnits.Duration(wish.Dip)}{(wish.DipIsSeen ? ", as the last ones did," : "")} and its airing {DisplayUnits.Duration(wish.Airing)}; goods go in as wet and cold as the room, {units.Temperature(heat.LikelyRoomC)}, with {DipOutlook.LeastWater} to {DipOutlook.MostWater} times their weight of water.";
        yield return wish.RecoveryIsMeasured
            ? $"The liquor clears in {DisplayUnits.Duration(wish.Recovery)} after a dip, as it did before."
            : $"The liquor is given {DisplayUnits.Duration(wish.Recovery)} to clear after a dip (common practice, no source); a green liquor or a risen ORP wants more.";
        yield return $"The heater gives {heat.PowerW:0} W{(heat.HeaterIsKnown ? "" : ", which is a guess from the size of the vat: say it with its power")}; with the lid off the vat loses {heat.OpenLossWPerK / units.FromKelvinDifference(1):0.0} W for each {units.TemperatureUnit} above the room.";
        yield return $"After {DisplayUnits.Duration(Science.Heat.DipPlan.WorkingTime)} of work the vat rests for {DisplayUnits.Duration(DayPlanner.Rest)}, but not for a last dip alone.";
        yield return plan.Additions.Count > 0
            ? $"What to add comes from the ledger, which may be off by half: read the pH and look at the liquor first, and give a third of a dose before the rest. Stock is taken to hold {DayAdditions.StockGramsPerLitre:0} g of indigo per litre."
            : "By the ledger these goods leave enough dye, reducing agent and alkali in the vat; look at the liquor all the same.";
    }

    /// <summary>When something of a plan begins: with its day where that is not the plan's.</summary>
    public static string Begin(DayPlan plan, DateTimeOffset at, TimeZoneInfo zone) => WallTime.Near(PlanClock.Local(at, zone), plan.Begins, zone);

    /// <summary>A time of day of the dyer.</summary>
    public string Clock(DateTimeOffset at) => Clock(at, zone);

    private static string Clock(DateTimeOffset at, TimeZoneInfo zone) => PlanClock.Local(at, zone).ToString("HH:mm");
}
