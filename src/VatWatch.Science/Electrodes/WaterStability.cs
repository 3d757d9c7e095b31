namespace VatWatch.Science.Electrodes;

/// <summary>
/// The potentials between which water itself is stable, for judging whether an ORP reading can be real. Below the hydrogen line
/// water would give hydrogen, above the oxygen line oxygen.
/// </summary>
public static class WaterStability
{
    /// <summary>Hydrogen line, mV against the standard hydrogen electrode at 1 atm hydrogen: −S(T) · pH. Exact by definition.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pH is not a number, or the temperature does not exist.</exception>
    public static double HydrogenLineMillivolts(double ph, double temperatureC)
        => -Nernst.SlopeMillivoltsPerPh(temperatureC) * Wanted.Finite(ph, "");

    /// <summary>
    /// Oxygen line, mV against the standard hydrogen electrode at 1 atm oxygen: 1229 − 0.846 (t − 25) − S(T) · pH. The standard
    /// potential is the textbook's; the temperature coefficient (Bratsch 1989) is from memory. Flagged outside 0 to 100 °C.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The pH is not a number, or the temperature does not exist.</exception>
    public static Estimate OxygenLineMillivolts(double ph, double temperatureC)
        => Estimate.InRange(
            1229 - 0.846 * (temperatureC - 25) + HydrogenLineMillivolts(ph, temperatureC), temperatureC, 0, 100);
}
