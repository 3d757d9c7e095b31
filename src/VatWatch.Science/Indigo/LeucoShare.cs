using VatWatch.Science.Electrodes;

namespace VatWatch.Science.Indigo;

/// <summary>
/// The share of the dye that is reduced, from the margin to the midpoint, by the ideal Nernst relation for two electrons. Solid
/// indigo has a constant activity and the probe shows a mixed potential, so this is an index to follow, not an assay.
/// </summary>
public static class LeucoShare
{
    /// <summary>Share from 0 (all blue) to 1 (all reduced): r / (1 + r), r = 10^(−2 ΔE / S(T)).</summary>
    /// <param name="marginMillivolts">ΔE, the reading minus the midpoint, mV.</param>
    /// <param name="temperatureC">Temperature of the liquor, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The margin is not a number, or the temperature does not exist.</exception>
    public static double FromMargin(double marginMillivolts, double temperatureC)
        => 1 / (1 + Math.Pow(10, 2 * Wanted.Finite(marginMillivolts, "mV") / Nernst.SlopeMillivoltsPerPh(temperatureC)));
}
