namespace VatWatch.Science;

/// <summary>Density of air-free water at 1 atm. It serves both the molal scale of the bath chemistry and the heat balance.</summary>
public static class WaterDensity
{
    /// <summary>kg/m³ (the same number as g/L) from 0 to 150 °C.</summary>
    /// <remarks>G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, on the 1968 temperature scale; within 0.011 kg/m³ of IAPWS-IF97 up to 95 °C.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Below 0 °C, above 150 °C, or NaN.</exception>
    public static double KgPerM3(double temperatureC)
    {
        var t = Wanted.Within(temperatureC, 0, 150, "°C");
        var numerator = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
        return numerator / (1 + 16.879850e-3 * t);
    }
}
