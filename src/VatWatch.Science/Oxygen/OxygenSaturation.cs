namespace VatWatch.Science.Oxygen;

/// <summary>
/// Oxygen that water holds in equilibrium with moist air. Source: Benson and Krause, Limnol. Oceanogr. 29 (1984) 620, as several
/// independent public codes use it. A working vat holds about none; this is the driving force at its surface.
/// </summary>
public static class OxygenSaturation
{
    /// <summary>Concentration, mg/L; flagged outside 0 to 40 °C or salinity 0 to 40. The error looks like 0.5 % to 55 °C and 1 % at 60 °C.</summary>
    /// <param name="temperatureC">Temperature of the water, °C.</param>
    /// <param name="pressureAtm">Air pressure, atm; above the water's vapour pressure.</param>
    /// <param name="salinity">Salinity, g/kg, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The temperature is not within −20 to 100 °C (no liquid water), the water would boil at that pressure, or the salinity is below 0.
    /// </exception>
    public static Estimate MilligramsPerLitre(double temperatureC, double pressureAtm = 1, double salinity = 0)
    {
        var kelvin = Wanted.Kelvin(Wanted.Within(temperatureC, -20, 100, "°C"));
        Wanted.NotNegative(salinity, "g/kg");
        var atOneAtmosphere = Math.Exp(
            -139.34411 + 1.575701e5 / kelvin - 6.642308e7 / Math.Pow(kelvin, 2) + 1.243800e10 / Math.Pow(kelvin, 3)
            - 8.621949e11 / Math.Pow(kelvin, 4)
            - salinity * (0.017674 - 10.754 / kelvin + 2140.7 / (kelvin * kelvin)));

        return Estimate.InRange(atOneAtmosphere * PressureFactor(temperatureC, pressureAtm), temperatureC, 0, 40)
            .OrExtrapolated(salinity > 40);
    }

    private static double PressureFactor(double temperatureC, double pressureAtm)
    {
        var kelvin = Wanted.Kelvin(temperatureC);
        var vapourAtm = Math.Exp(11.8571 - 3840.70 / kelvin - 216961 / (kelvin * kelvin));
        if (!(double.IsFinite(pressureAtm) && pressureAtm > vapourAtm))
            throw Wanted.Refusal(pressureAtm, nameof(pressureAtm), $"more than the water's vapour pressure of {vapourAtm:0.0000} atm");

        if (pressureAtm == 1)
            return 1;

        var theta = 0.000975 - 1.426e-5 * temperatureC + 6.436e-8 * temperatureC * temperatureC;
        return pressureAtm * (1 - vapourAtm / pressureAtm) * (1 - theta * pressureAtm) / ((1 - vapourAtm) * (1 - theta));
    }
}
