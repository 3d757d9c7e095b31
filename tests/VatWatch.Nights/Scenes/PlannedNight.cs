using VatWatch.Nights.Physics;

namespace VatWatch.Nights.Scenes;

/// <summary>A vat that was watched for two nights, on its third evening: somebody asks when to switch on, and does so then.</summary>
internal sealed class PlannedNight
{
    private const int MostDraws = 400;

    private PlannedNight(Studio studio) => Studio = studio;

    public Studio Studio { get; }

    /// <summary>What is wished for, °C by its own thermometer.</summary>
    public double Target => Studio.Plan.Middle;

    /// <summary>The evening of a seed; draws in which the first nights do not go well are thrown away.</summary>
    public static PlannedNight Make(int seed)
    {
        for (var draw = 0; draw < MostDraws; draw++)
        {
            var chance = new Chance(unchecked(seed * 999_983 + draw * 6961 + 29));
            if (Evenings.WithThermostat(chance, plan => plan with { SaysReadyBy = false, Coarse = chance.Happens(0.15) }) is { } evenings && Evening(evenings, chance) is { } studio)
                return new PlannedNight(studio);
        }

        throw new InvalidOperationException($"seed {seed}: {MostDraws} draws and no planned night");
    }

    /// <summary>Switches on and says how many minutes after that the thermometer showed the target; null when it did not within 14 hours.</summary>
    public double? Warm()
    {
        Studio.Heater.Thermostat = null;
        Studio.Heater.SwitchedOn = true;
        var from = Studio.Now;
        return Studio.PassUntil(14 * 60, () => Studio.Shown >= Target) ? (Studio.Now - from).TotalMinutes : null;
    }

    private static Studio? Evening(Evenings evenings, Chance chance)
    {
        for (var night = 0; night < 2; night++)
        {
            if (!evenings.SoundNight())
                return null;
            evenings.Day();
        }

        var studio = evenings.Studio;
        studio.Pass(chance.Uniform(15, 40));
        return studio.Shown < studio.Plan.Middle - 3 && studio.Plan.CanHold(studio.Plan.Middle + 1, 0.85) ? studio : null;
    }
}
