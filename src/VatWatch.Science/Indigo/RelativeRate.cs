using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Indigo;

/// <summary>How much faster a reaction runs at one temperature than at another, by an activation energy or a Q10 factor.</summary>
public static class RelativeRate
{
    /// <summary>
    /// Dithionite burnt by air, kJ/mol: measured at 15 to 34 °C in NaOH (Kawagoe and Robinson, Can. J. Chem. Eng. 59, 1981).
    /// </summary>
    public const double DithioniteAirKilojoulesPerMole = 76.2;

    /// <summary>Glucose reducing indigo, kJ/mol, in 0.2 mol/L NaOH (Vuorema et al., Dyes Pigm. 76, 2008, 542).</summary>
    public const double GlucoseKilojoulesPerMole = 64;

    /// <summary>
    /// Q10 taken for thiourea dioxide, for which no activation energy was found: between those of the two reactions above at 40 to
    /// 50 °C. A proposal; make it a setting.
    /// </summary>
    public const double ThioureaDioxideQ10 = 2.3;

    /// <summary>Rate at one temperature over the rate at another, by Arrhenius.</summary>
    /// <param name="activationKilojoulesPerMole">Activation energy, kJ/mol, 0 or more.</param>
    /// <param name="temperatureC">Temperature asked for, °C.</param>
    /// <param name="referenceC">Temperature whose rate is 1, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The energy is below 0, or a temperature does not exist.</exception>
    public static double Arrhenius(double activationKilojoulesPerMole, double temperatureC, double referenceC)
        => Math.Exp(1000 * Wanted.NotNegative(activationKilojoulesPerMole, "kJ/mol") / Nernst.GasConstantJoulesPerMoleKelvin
            * (1 / Wanted.Kelvin(referenceC) - 1 / Wanted.Kelvin(temperatureC)));

    /// <summary>Rate at one temperature over the rate at another, from the factor for 10 K.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is not above 0, or a temperature does not exist.</exception>
    public static double FromQ10(double q10, double temperatureC, double referenceC)
        => Math.Pow(Wanted.Positive(q10, ""), (Wanted.TemperatureC(temperatureC) - Wanted.TemperatureC(referenceC)) / 10);

    /// <summary>
    /// Dithionite burnt by air, relative to a reference temperature; flagged when either temperature is outside 15 to 34 °C.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature does not exist.</exception>
    public static Estimate DithioniteInAir(double temperatureC, double referenceC)
        => Estimate.InRange(Arrhenius(DithioniteAirKilojoulesPerMole, temperatureC, referenceC), temperatureC, 15, 34)
            .OrExtrapolated(referenceC is < 15 or > 34);
}
