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
}
