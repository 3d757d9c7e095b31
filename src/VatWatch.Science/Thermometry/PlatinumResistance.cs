namespace VatWatch.Science.Thermometry;

/// <summary>
/// Platinum resistance thermometers (Pt100, Pt1000) by the Callendar–Van Dusen equation of IEC 60751:
/// R = R₀ (1 + A t + B t²), below 0 °C with C (t − 100) t³ added. Vouched for from −200 to 850 °C.
/// </summary>
public static class PlatinumResistance
{
    /// <summary>R₀ of a Pt100, Ω.</summary>
    public const double Pt100Ohm = 100;

    /// <summary>R₀ of a Pt1000, Ω.</summary>
    public const double Pt1000Ohm = 1000;

    private const double A = 3.9083e-3;
    private const double B = -5.775e-7;
    private const double C = -4.183e-12;
    private const double LowestC = -200;
    private const double HighestC = 850;

    // Here, at 3384 °C, the quadratic turns over; a larger ratio belongs to no temperature (platinum melts at 1768 °C).
    private const double TurningPointC = -A / (2 * B);
    private const double LargestRatio = 1 - A * A / (4 * B);

    /// <summary>Resistance at a temperature, Ω; flagged outside −200 to 850 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist or lies above the 3380 °C where the equation turns over, or R₀ is not above 0.</exception>
    public static Estimate ResistanceOhm(double temperatureC, double resistanceAt0COhm = Pt100Ohm)
    {
        Wanted.Positive(resistanceAt0COhm, "Ω");
        Wanted.Within(temperatureC, Wanted.AbsoluteZeroC, TurningPointC, "°C");

        // Far below its range, under −242 °C, the equation turns negative; a resistance does not.
        return Estimate.InRange(resistanceAt0COhm * Math.Max(0, Ratio(temperatureC)), temperatureC, LowestC, HighestC);
    }

    /// <summary>Temperature at a resistance, °C; flagged outside −200 to 850 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The resistance is below 0 or more than 7.6 times R₀ (no temperature gives it: an open circuit), or R₀ is not above 0.
    /// </exception>
    public static Estimate TemperatureC(double resistanceOhm, double resistanceAt0COhm = Pt100Ohm)
    {
        Wanted.Positive(resistanceAt0COhm, "Ω");
        Wanted.Within(resistanceOhm, 0, LargestRatio * resistanceAt0COhm, "Ω");
        var ratio = resistanceOhm / resistanceAt0COhm;
        var temperatureC = QuadraticC(ratio);
        if (ratio < 1)
            temperatureC = RefineBelowZero(temperatureC, ratio);

        return Estimate.InRange(temperatureC, temperatureC, LowestC, HighestC);
    }

    private static double Ratio(double t)
        => 1 + A * t + B * t * t + (t < 0 ? C * (t - 100) * t * t * t : 0);

    private static double QuadraticC(double ratio) => (-A + Math.Sqrt(A * A - 4 * B * (1 - ratio))) / (2 * B);

    // Newton's method; the fourth-degree term moves −200 °C by only 2.4 °C, so five steps reach the last digit.
    private static double RefineBelowZero(double t, double ratio)
    {
        for (var step = 0; step < 5; step++)
            t -= (Ratio(t) - ratio) / (A + 2 * B * t + C * (4 * t - 300) * t * t);

        return t;
    }
}
