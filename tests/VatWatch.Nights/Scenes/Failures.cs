using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>Nights in which heat or the reading of it fails.</summary>
internal static class Failures
{
    /// <summary>The element is dead from the first minute, or dies on the way up.</summary>
    public static Scene? HeaterFails(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { Enters = true, Lukewarm = 4 }) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        var dead = chance.Happens(0.4);
        studio.Heater.Sound = dead ? 0 : 1;
        evenings.SwitchOn();
        if (!dead)
        {
            var stop = chance.Uniform(studio.Shown + 2, studio.Plan.Low - 4);
            if (stop <= studio.Shown + 1 || !studio.PassUntil(8 * 60, () => studio.Shown >= stop))
                return null;
            studio.Heater.Sound = 0;
        }

        return Until(evenings, from, studio.Now, 150);
    }

    public static Scene? HalfPower(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { Coarse = false }) is not { } evenings || !evenings.SoundNight())
            return null;
        evenings.Day();
        if (!evenings.SoundNight())
            return null;
        evenings.Day();
        var studio = evenings.Studio;
        if (studio.Liquor.Mean > studio.Plan.Low - 4)
            return null;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        studio.Heater.Sound = chance.Uniform(0.45, 0.55);
        evenings.SwitchOn();
        return Until(evenings, from, studio.Now, 200);
    }

    public static Scene? BreakerAtNight(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        if (!studio.PassUntil(9 * 60, () => !studio.Heater.Commanded))
            return null;
        studio.Pass(chance.Uniform(20, 120));
        if (studio.Shown < studio.Plan.Low)
            return null;
        studio.Heater.Supplied = false;
        var fault = studio.Now;
        if (!studio.PassUntil(9 * 60, () => studio.Shown < studio.Plan.Low - 0.5))
            return null;
        return Until(evenings, from, fault, 60);
    }

    /// <summary>The thermometer was never put in; the heater has a thermostat or boils the vat.</summary>
    public static Scene? ProbeInAir(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { Enters = true }) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        if (chance.Happens(0.5))
            studio.Heater.Thermostat = null;
        studio.Thermometer.InAir = true;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        return Until(evenings, from, studio.Now, 240);
    }

    public static Scene? ProbeFallsOut(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        if (!studio.PassUntil(8 * 60, () => studio.Shown >= studio.Plan.Low))
            return null;
        studio.Pass(chance.Uniform(5, 120));
        studio.Thermometer.InAir = true;
        return Until(evenings, from, studio.Now, 90);
    }

    public static Scene? LidLeftOff(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { Coarse = false }) is not { } evenings || !LidMatters(evenings.Studio.Plan) || !evenings.SoundNight())
            return null;
        evenings.Day();
        if (!evenings.SoundNight())
            return null;
        evenings.Day();
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        studio.Liquor.LidOn = false;
        evenings.SwitchOn();
        return Until(evenings, from, studio.Now, 360);
    }

    public static Scene? TopUp(Chance chance)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { SaysReadyBy = false }) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var from = studio.Now;
        studio.Pass(chance.Uniform(2, 20));
        evenings.SwitchOn();
        if (!studio.PassUntil(8 * 60, () => studio.Shown >= studio.Plan.Low))
            return null;
        studio.Pass(chance.Uniform(20, 90));
        var fault = studio.Now;
        var litres = Math.Round(studio.Plan.Body.Litres * chance.Uniform(0.08, 0.22), 1);
        var (minutes, celsius) = (chance.OneOf(1, 2, 3), chance.Uniform(8, 18));
        if (studio.Plan.Enters)
            studio.Enter("top-up", FormattableString.Invariant($"{litres} L"));
        for (var part = 0; part < minutes * 6; part++)
        {
            studio.Liquor.Pour(litres / (minutes * 6), celsius);
            studio.Pass(1.0 / 6);
        }

        return Until(evenings, from, fault, 180);
    }

    private static bool LidMatters(StudioPlan plan) => plan.Lidded && plan.Body.Loss(plan.Middle, 14, lidOn: false) > 1.6 * plan.Body.Loss(plan.Middle, 14, lidOn: true);

    private static Scene Until(Evenings evenings, DateTimeOffset from, DateTimeOffset fault, double minutes)
    {
        evenings.Studio.Pass(minutes);
        evenings.Ends(from, healthy: false);
        return new Scene(evenings.Studio, evenings.Nights) { Fault = fault };
    }
}
