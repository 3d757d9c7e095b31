using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Carbonate;

/// <summary>
/// What the same bath would read at another temperature. Soda ash baths lose about 0.022 pH/K at 25 °C and 0.017 pH/K at 45 °C with no change of
/// composition; a meter's temperature compensation corrects the electrode's slope only and does not remove this.
/// </summary>
public static class PhAtTemperature
{
    /// <summary>
    /// pH at <paramref name="otherTemperatureC"/> of a bath that read <paramref name="measuredPh"/> at <paramref name="measuredTemperatureC"/>. The
    /// difference between the reading and the logged composition is put down to strong acid (or unlogged alkali), which has no temperature effect of its own.
    /// </summary>
    public static Estimate Of(double measuredPh, double measuredTemperatureC, BathComposition logged, double otherTemperatureC)
    {
        var there = BathEquilibrium.Solve(MeasuredBath.WithAcidFitted(measuredPh, logged, measuredTemperatureC), otherTemperatureC);
        return new(there.Ph, there.Extrapolated || measuredTemperatureC > CarbonateConstants.CheckedToC);
    }
}
