using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>Nights and days that are about the reducing agent.</summary>
internal static class BathScenes
{
    /// <summary>The true rise must be clearly past 20 mV/h: the electrode wanders too.</summary>
    private const double SlowestRise = 24;

    /// <summary>Air comes in steadily, more and more, or in plenty and then less.</summary>
    public static Scene? RedoxRises(Chance chance)
    {
        if (Warm(chance) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        studio.Pass(chance.Uniform(60, 240));
        var fault = studio.Now;
        var leak = chance.Uniform(SlowestRise, 60) / studio.Bath!.MillivoltsPerFold;
        var shape = chance.OneOf(0, 1, 2);
        for (var minute = 0; minute < 150; minute++)
        {
            studio.Bath.Leak = shape switch
            {
                1 => leak * (1 - Math.Exp(-minute / 25.0)),
                2 => leak * (1 + Math.Exp(-minute / 20.0)),
                _ => leak,
            };
            studio.Pass(1);
        }

        return End(evenings, fault);
    }

    public static Scene? DipDay(Chance chance)
    {
        if (Warm(chance) is not { } evenings)
            return null;
        var fault = evenings.Studio.Now;
        for (var dip = chance.OneOf(4, 5, 6, 8); dip > 0; dip--)
            Dip(evenings.Studio, chance, chance.Uniform(0.002, 0.012), rest: chance.Uniform(35, 60));
        evenings.Studio.Pass(60);
        return End(evenings, fault);
    }

    /// <summary>Dips until the agent is gone, then a vat left to itself.</summary>
    public static Scene? Depletion(Chance chance)
    {
        if (Warm(chance) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        var fault = studio.Now;
        var (cost, rest) = (chance.Uniform(0.09, 0.2), chance.Uniform(20, 60));
        for (var dip = 0; dip < 12 && studio.Bath!.Pool > 0.02; dip++)
            Dip(studio, chance, Math.Min(cost, studio.Bath.Pool - 0.015), rest);
        studio.Pass(180);
        return studio.Bath!.Pool < 0.03 ? End(evenings, fault) : null;
    }

    public static Scene? ElectrodeDrift(Chance chance)
    {
        if (Warm(chance) is not { } evenings)
            return null;
        var studio = evenings.Studio;
        studio.Pass(60);
        var fault = studio.Now;
        studio.Orp!.DriftPerHour = chance.Uniform(6, 15);
        studio.Pass(chance.Uniform(540, 720));
        return End(evenings, fault);
    }

    /// <summary>A vat that is warm already and held so, its bath rested.</summary>
    private static Evenings? Warm(Chance chance)
    {
        var evenings = Evenings.WithThermostat(chance, plan => plan with { HasBath = true, Enters = true, SaysReadyBy = false, StartCelsius = plan.Middle, StartHour = 5 });
        if (evenings is null)
            return null;
        evenings.SwitchOn();
        evenings.Studio.Pass(120);
        return evenings.Studio.Bath!.Millivolts < StudioPlan.Weak(evenings.Studio.Bath) - 20 ? evenings : null;
    }

    private static void Dip(Studio studio, Chance chance, double share, double rest)
    {
        studio.Liquor.LidOn = false;
        studio.Yarn(studio.Plan.Body.Litres * chance.Uniform(0.01, 0.05), share);
        studio.Pass(chance.Uniform(8, 20));
        studio.Yarn(null, 0);
        studio.Liquor.LidOn = studio.Plan.Lidded;
        studio.Pass(rest * chance.Uniform(0.8, 1.2));
    }

    private static Scene End(Evenings evenings, DateTimeOffset fault)
    {
        evenings.Ends(evenings.Studio.Points[0].Time, healthy: false);
        return new Scene(evenings.Studio, evenings.Nights) { Fault = fault };
    }
}
