using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>Nights in which the liquor is heated past its limit.</summary>
internal static class Runaways
{
    private const double LongestHeating = 13 * 60;

    public static Scene? StuckFromStart(Chance chance)
    {
        if (Strong(chance, plan => plan) is not { } evenings)
            return null;
        evenings.Studio.Heater.Thermostat!.Stuck = true;
        return RunAway(evenings, chance, knownThermostat: false);
    }

    public static Scene? StuckAfterNights(Chance chance)
    {
        if (Strong(chance, plan => plan) is not { } evenings || !evenings.SoundNight())
            return null;
        evenings.Day();
        if (!evenings.SoundNight())
            return null;
        evenings.Day();
        evenings.Studio.Heater.Thermostat!.Stuck = true;
        return RunAway(evenings, chance, knownThermostat: true);
    }

    public static Scene? LeftOn(Chance chance)
    {
        var plan = StudioPlan.Draw(chance);
        return plan.CanHold(plan.Limit + 4, 0.85) ? RunAway(new Evenings(new Studio(chance.Fork(), plan), chance), chance, knownThermostat: false) : null;
    }

    public static Scene? Forgotten(Evenings evenings, Chance chance)
    {
        evenings.Day();
        return RunAway(evenings, chance, knownThermostat: false);
    }

    /// <summary>A controller watches the liquor and commands a relay, which welds at some cut of the first night.</summary>
    public static Scene? RelayWelded(Chance chance)
    {
        if (Strong(chance, plan => plan with { HeaterProbe = StudioPlan.Command, Coarse = false }) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        for (var cuts = chance.OneOf(0, 0, 1, 2, 3); cuts > 0; cuts--)
        {
            if (!studio.PassUntil(8 * 60, () => !studio.Heater.Commanded) || !studio.PassUntil(6 * 60, () => studio.Heater.Commanded))
                return null;
        }

        var since = studio.Now;
        studio.Heater.Welded = true;
        DateTimeOffset fault;
        do
        {
            if (!studio.PassUntil(8 * 60, () => !studio.Heater.Commanded))
                return null;
            fault = studio.Now;
        }
        while (studio.PassUntil(1, () => studio.Heater.Commanded));
        if (!studio.PassUntil(6 * 60, () => studio.Shown >= studio.Plan.Limit))
            return null;
        studio.Pass(45);
        evenings.Ends(from, healthy: false);
        return new Scene(studio, evenings.Nights) { Fault = fault, HeatingSince = since, Knowable = fault, MustCross = true };
    }

    /// <summary>The reading stops on its way up, several kelvins below the limit.</summary>
    public static Scene? FrozenHeating(Chance chance)
    {
        if (Strong(chance, plan => plan) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        studio.Heater.Thermostat = null;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        var since = studio.Now;
        var frozen = studio.Plan.Limit - chance.Uniform(4, 14);
        if (studio.Shown >= frozen || !studio.PassUntil(LongestHeating, () => studio.Shown >= frozen))
            return null;
        studio.Thermometer.Frozen = true;
        var fault = studio.Now;
        if (!studio.PassUntil(LongestHeating, () => studio.Liquor.At(studio.Thermometer.Height) >= studio.Plan.Limit))
            return null;
        studio.Pass(90);
        evenings.Ends(from, healthy: false);
        return new Scene(studio, evenings.Nights) { Fault = fault, HeatingSince = since };
    }

    private static Evenings? Strong(Chance chance, Func<StudioPlan, StudioPlan> change) =>
        Evenings.WithThermostat(chance, change) is { } evenings && evenings.Studio.Plan.CanHold(evenings.Studio.Plan.Limit + 4, 0.85) ? evenings : null;

    private static Scene? RunAway(Evenings evenings, Chance chance, bool knownThermostat)
    {
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        var since = studio.Now;
        DateTimeOffset? knowable = null;
        var due = knownThermostat ? studio.Heater.Thermostat!.Setting + 0.5 : double.MaxValue;
        var crossed = studio.PassUntil(LongestHeating, () =>
        {
            if (knowable is null && studio.Liquor.At(studio.Heater.Thermostat?.BulbHeight ?? 0.5) >= due)
                knowable = studio.Now;
            return studio.Shown >= studio.Plan.Limit;
        });
        if (!crossed || (knownThermostat && knowable is null))
            return null;
        if (chance.Happens(0.25) && studio.PassUntil(6 * 60, () => studio.Liquor.Boils))
            studio.Pass(40);
        else
            studio.Pass(45);
        evenings.Ends(from, healthy: false);
        return new Scene(studio, evenings.Nights) { HeatingSince = since, Fault = since, Knowable = knowable, MustCross = true };
    }
}
