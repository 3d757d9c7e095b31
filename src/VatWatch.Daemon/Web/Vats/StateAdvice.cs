using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>What a dyer does in each state, in plain sentences. Common practice, no source, but for the cautions, which follow the safety notes.</summary>
public static class StateAdvice
{
    /// <summary>One or two sentences.</summary>
    public static string For(VatState state) => state switch
    {
        VatState.Warming => "Leave the lid on and let it warm. Heater and probes stay under the liquor all the time.",
        VatState.Ready => "Dye. Keep the goods under the liquor, stir gently and take air in as little as you can.",
        VatState.Resting => "Let it rest, lid on, until the potential has settled. Then dip again.",
        VatState.TooCold => "Check that the heater has power and is covered by liquor, and put the lid on. Cold liquor dyes pale and slowly.",
        VatState.TooHot => SafetyActions.TooHot,
        VatState.Weak => "Hold the next dip. Add reducer little by little, stir gently, lid on, and let it rest before you judge again.",
        VatState.Oxidised => "Do not dip: what is dyed now washes out. Reduce the vat afresh and wait until it is clear yellow-green below the flower.",
        VatState.AlkaliLow => "Check with a strip, then add alkali in portions, dissolved in water, goggles on.",
        VatState.AlkaliHigh => "Keep wool and silk out. Never add acid to a vat that holds reducer: it gives off gas that harms. Thin it with warm water or let it be used up.",
        _ => "Look at the vat itself before trusting anything here. While the temperature is unknown, switch the heater off at the plug.",
    };
}
