using VatWatch.Alarms.Rules.Heat;
using VatWatch.Conditions;
using VatWatch.Science.Heat;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>What a dyer does in each state, in plain sentences. Common practice, no source, but for the cautions, which follow the safety notes.</summary>
internal static class StateAdvice
{
    private const string LookFirst = "Look at the vat itself before trusting anything here.";

    /// <summary>One to three sentences.</summary>
    /// <param name="state">As it is shown: unknown where everything it rests on is old.</param>
    /// <param name="condition">What is known.</param>
    /// <param name="vat">What could be known.</param>
    public static string For(VatState state, VatCondition condition, VatDefinition vat) => state switch
    {
        VatState.Warming => "Let it warm, lid on. Heater and probes stay under the liquor all the time.",
        VatState.Ready => "Dye. If the vat stood closed for long, air the room first, lift the far edge of the lid first and do not lean in. "
            + "Keep the goods under the liquor, stir gently and take in as little air as you can.",
        VatState.Resting => "Let it rest, lid on, until ORP has settled. Then dip again.",
        VatState.TooCold when condition.TemperatureRateKPerHour is null => "Whether it warms is not known yet; it takes some minutes of readings. Meanwhile see that the heater has power and is covered by liquor, and that the lid is on.",
        VatState.TooCold => "Check that the heater has power and is covered by liquor, and put the lid on. Cold liquor dyes pale and slowly.",
        VatState.TooHot => SafetyActions.At(condition.TemperatureC, vat.BoilingC),
        VatState.Weak => "Hold the next dip. Add reducer little by little, stir gently, lid on, and let it rest before you judge again.",
        VatState.Oxidised => "Do not dip: what is dyed now washes out. Reduce the vat afresh and wait until it is clear yellow-green below the flower.",
        VatState.AlkaliLow => "Check with a strip, then add alkali in portions, dissolved in water, goggles on.",
        VatState.AlkaliHigh => "Keep wool and silk out. Never add acid to a vat that holds reducer: it gives off gas that harms. Thin it with warm water or let it be used up.",
        _ => Missing(condition, vat),
    };

    // Unknown says nothing of the temperature when it is another probe that fails.
    private static string Missing(VatCondition condition, VatDefinition vat) => condition switch
    {
        { TemperatureC: null } => $"{LookFirst} While the temperature is unknown, switch the heater off at the plug.",
        { OrpMillivolts: null } when vat.Orp is not null => $"{LookFirst} Without ORP the reduction is not known: reduced liquor is clear yellow-green below the flower, oxidised liquor blue or grey. "
            + "See to the ORP probe.",
        { Ph: null } when vat.Ph is not null => $"{LookFirst} Without pH the alkali is not known: check it with a strip, and see to the pH probe.",
        _ => LookFirst,
    };
}

/// <summary>The standing caution about hot liquor, with the time of <see cref="ScaldTime"/> to a burn.</summary>
internal static class ScaldCaution
{
    /// <summary>From here the caution stands, °C: hotter is painful.</summary>
    public const double FromC = 43;

    /// <summary>From here minutes are enough to injure, °C.</summary>
    public const double UrgentFromC = 49;

    /// <summary>The sentence, or null below <see cref="FromC"/>.</summary>
    public static string? For(double? temperatureC, DisplayUnits units)
    {
        if (temperatureC is not { } hot || hot < FromC)
        {
            return null;
        }

        return ScaldTime.At(Math.Min(hot, 100)).Words is not { } time
            ? $"Hot and alkaline: at {units.Temperature(hot)} the liquor is painful on skin. Gloves on; unplug the heater before reaching in."
            : $"Scald: liquor at {units.Temperature(hot)} burns bare skin {time}, a child's sooner, and alkali makes it worse. Gloves on; unplug the heater before reaching in.";
    }
}
