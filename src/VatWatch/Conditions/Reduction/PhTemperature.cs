namespace VatWatch.Conditions.Reduction;

/// <summary>
/// Brings the pH of a soda ash bath to another temperature with no change of composition: it loses 0.022 pH/K at 25 °C and 0.017 pH/K at
/// 45 °C (<see cref="Science.Carbonate.PhAtTemperature"/>), in between on a straight line. For comparing days; dosing solves the bath itself.
/// </summary>
internal static class PhTemperature
{
    private const double SlopeAt25 = -0.022;
    private const double SlopeChangePerK = (0.022 - 0.017) / 20;

    /// <summary>pH at <paramref name="toC"/> of a bath that reads <paramref name="ph"/> at <paramref name="fromC"/>, °C.</summary>
    public static double At(double ph, double fromC, double toC) => ph + Integral(toC) - Integral(fromC);

    private static double Integral(double temperatureC) =>
        SlopeAt25 * temperatureC + SlopeChangePerK * (temperatureC * temperatureC / 2 - 25 * temperatureC);
}
