using VatWatch.Conditions;

namespace VatWatch.Plans.Warm;

/// <summary>A warm-up planned on what a running watch knows of the vat now.</summary>
public static class LiveWarmPlan
{
    /// <summary>The plan, or why there is none, as a sentence.</summary>
    /// <param name="vat">The vat.</param>
    /// <param name="condition">Its newest condition.</param>
    /// <param name="seen">Its last warm-ups, newest first.</param>
    /// <param name="ready">When it is to be warm, UTC.</param>
    /// <param name="targetC">How warm, °C.</param>
    /// <param name="units">The dyer's units.</param>
    /// <param name="zone">The dyer's clock.</param>
    public static (VatHeat? Heat, WarmPlan? Plan, string? Refused) Of(
        VatDefinition vat, VatCondition condition, IReadOnlyList<SeenWarmUp> seen, DateTimeOffset ready, double targetC, DisplayUnits units, TimeZoneInfo zone)
    {
        if (condition is not { Heat: { } outlook, TemperatureC: { } liquorC })
        {
            return (null, null, $"How warm {vat.Name} is now is not known: {condition.NoTimeToBand ?? "no probe says it"}. See to its probe first.");
        }

        var heat = VatHeat.Of(vat, outlook);
        var (plan, refused) = new WarmPlanner(vat, heat, units, zone, seen).Plan(new(ready, targetC, condition.Stamp.Utc, liquorC));
        return (heat, plan, refused);
    }

    /// <summary>The heater as a kept plan wants it; null when nothing can be said of it.</summary>
    /// <param name="vat">The vat.</param>
    /// <param name="condition">Its newest condition.</param>
    /// <param name="seen">Its last warm-ups, newest first.</param>
    /// <param name="ready">When it is to be warm, UTC.</param>
    /// <param name="targetC">How warm, °C.</param>
    /// <param name="zone">The dyer's clock.</param>
    public static HeaterDue? Due(VatDefinition vat, VatCondition condition, IReadOnlyList<SeenWarmUp> seen, DateTimeOffset ready, double targetC, TimeZoneInfo zone)
    {
        if (condition is not { Heat: { } outlook, TemperatureC: { } liquorC })
        {
            return null;
        }

        var (now, planner) = (condition.Stamp.Utc, new WarmPlanner(vat, VatHeat.Of(vat, outlook), DisplayUnits.Si, zone, seen));
        if (planner.Plan(new(ready, targetC, now, liquorC)).Plan is { } plan)
        {
            return new(plan.SwitchOn, ready, targetC);
        }

        return planner.Earliest(new(ready, targetC, now, liquorC)) is { } earliest && earliest > ready ? new HeaterDue(now, ready, targetC) { Late = earliest } : null;
    }
}
