using VatWatch.Conditions;
using VatWatch.Conditions.Heating;

namespace VatWatch.Plans.Warm;

/// <summary>A warm-up planned on what a running watch knows of the vat now.</summary>
public static class LiveWarmPlan
{
    /// <summary>The plan, or why there is none, as a sentence.</summary>
    /// <param name="seen">What its thermometer showed lately.</param>
    /// <param name="ready">When it is to be warm, UTC.</param>
    /// <param name="targetC">How warm, °C.</param>
    /// <param name="heaterWatts">The heater's power where a person said it, W.</param>
    public static (VatHeat? Heat, WarmPlan? Plan, string? Refused) Of(
        VatDefinition vat, VatCondition condition, SeenHeat seen, DateTimeOffset ready, double targetC, double? heaterWatts, DisplayUnits units, TimeZoneInfo zone)
    {
        if (condition is not { Heat: { } outlook, TemperatureC: { } liquorC })
        {
            return (null, null, $"How warm {vat.Name} is now is not known: {condition.NoTimeToBand ?? "no probe says it"}. See to its probe first.");
        }

        var heat = Heat(vat, outlook, heaterWatts);
        var (plan, refused) = new WarmPlanner(vat, heat, units, zone, seen).Plan(new(ready, targetC, condition.Stamp.Utc, liquorC));
        return (heat, plan, refused);
    }

    /// <summary>The heater as a kept plan wants it; null when nothing can be said of it.</summary>
    /// <param name="seen">What its thermometer showed lately.</param>
    /// <param name="ready">When it is to be warm, UTC.</param>
    /// <param name="targetC">How warm, °C.</param>
    /// <param name="heaterWatts">The heater's power where a person said it, W.</param>
    public static HeaterDue? Due(VatDefinition vat, VatCondition condition, SeenHeat seen, DateTimeOffset ready, double targetC, double? heaterWatts, TimeZoneInfo zone)
    {
        if (condition is not { Heat: { } outlook, TemperatureC: { } liquorC })
        {
            return null;
        }

        var wish = new WarmWish(ready, targetC, condition.Stamp.Utc, liquorC);
        var planner = new WarmPlanner(vat, Heat(vat, outlook, heaterWatts), DisplayUnits.Si, zone, seen);
        var kept = planner.Plan(wish).Plan ?? (planner.Earliest(wish) is { } earliest && earliest > ready ? planner.Plan(wish with { Ready = earliest }).Plan : null);
        return kept is { } plan
            ? new(plan.SwitchOn, ready, targetC) { Late = plan.Wish.Ready > ready ? plan.Wish.Ready : null, Foretold = ForetoldWarmUp.Of(plan, ready) }
            : null;
    }

    private static VatHeat Heat(VatDefinition vat, HeatOutlook outlook, double? heaterWatts) =>
        heaterWatts is { } watts ? VatHeat.Of(vat, outlook).WithHeater(watts) : VatHeat.Of(vat, outlook);
}
