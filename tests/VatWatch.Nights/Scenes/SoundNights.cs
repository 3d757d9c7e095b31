using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>Nights in which nothing goes wrong, and the third evening of a hand that forgets.</summary>
internal static class SoundNights
{
    public static Scene? WithThermostat(Chance chance, bool coarse, int nights)
    {
        if (Evenings.WithThermostat(chance, plan => plan with { Coarse = coarse }) is not { } evenings)
            return null;
        for (var night = 0; night < nights; night++)
        {
            if (night > 0)
                evenings.Day();
            if (!evenings.SoundNight())
                return null;
        }

        return new Scene(evenings.Studio, evenings.Nights);
    }

    /// <summary>The heater's own power holds the vat somewhere in the upper half of its band; it is on from evening to morning, two nights.</summary>
    public static Scene? FixedPower(Chance chance)
    {
        var plan = StudioPlan.Draw(chance);
        var end = chance.Uniform(plan.Middle, plan.High);
        plan = plan with { Watts = plan.Body.Loss(end, 14, plan.Lidded), Coarse = false, StartCelsius = chance.Uniform(plan.Low - 10, plan.Low), SaysReadyBy = false };
        if (plan.Watts is < 60 or > 3000)
            return null;
        var evenings = new Evenings(new Studio(chance.Fork(), plan), chance);
        if (!evenings.SoundNight())
            return null;
        evenings.Day();
        return evenings.SoundNight() ? new Scene(evenings.Studio, evenings.Nights) : null;
    }

    /// <summary>Heat in equals heat out near the middle of the band; the heater has been on for long.</summary>
    public static Scene? StandsStill(Chance chance)
    {
        var plan = StudioPlan.Draw(chance);
        plan = plan with { StartCelsius = plan.Middle + chance.Uniform(-1.5, 1.5), SaysReadyBy = false };
        var studio = new Studio(chance.Fork(), plan with { Watts = plan.Body.Loss(plan.StartCelsius!.Value, 14, plan.Lidded) });
        if (chance.Happens(0.5))
        {
            studio.Heater.Thermostat = new Thermostat(chance.Fork()) { Setting = plan.StartCelsius!.Value, Differential = 0.1, Scatter = 0.02, BulbLag = 20, BulbHeight = studio.Thermometer.Height };
        }

        var evenings = new Evenings(studio, chance);
        studio.Heater.SwitchedOn = true;
        return evenings.SoundNight() ? new Scene(studio, evenings.Nights) : null;
    }

    /// <summary>On in the evening, off by hand when it is warm; after two such evenings perhaps forgotten.</summary>
    public static Scene? ByHand(Chance chance, bool forgotten)
    {
        var plan = StudioPlan.Draw(chance);
        var off = chance.Uniform(plan.Middle - 1, plan.High - 0.5);
        plan = plan with { SaysReadyBy = false, StartHour = (int)chance.Uniform(14, 19) };
        if (!plan.CanHold(plan.Limit + 4, 0.85))
            return null;
        var studio = new Studio(chance.Fork(), plan);
        var evenings = new Evenings(studio, chance);
        for (var night = 0; night < 2; night++)
        {
            if (night > 0)
                evenings.Day();
            var from = studio.Now;
            studio.Pass(chance.Uniform(2, 20));
            evenings.SwitchOn(withWish: false);
            if (!studio.PassUntil(8 * 60, () => studio.Shown >= off + (night == 0 ? 0 : 0.2)))
                return null;
            studio.Pass(chance.Uniform(0, 5));
            evenings.SwitchOff();
            var switchedOff = studio.Now;
            studio.Pass(studio.MinutesTo(plan.ReadyHour));
            evenings.Ends(from, healthy: true, switchedOff);
        }

        return forgotten ? Runaways.Forgotten(evenings, chance) : new Scene(studio, evenings.Nights);
    }
}
