namespace VatWatch.Science.Heat;

/// <summary>Heat taken up by water as it warms and as it evaporates: our own least-squares fits to IAPWS-IF97, 0 to 100 °C at 1 atm.</summary>
public static class WaterHeat
{
    /// <summary>Specific heat, kJ/(kg·K); fit within 0.0003, at its end at 100 °C within 0.0006.</summary>
    public static double SpecificHeatKjPerKgK(double temperatureC)
    {
        var t = Wanted.Within(temperatureC, 0, 100, "°C");
        return 4.21916 + t * (-3.37345e-3 + t * (1.24606e-4 + t * (-2.73502e-6 + t * (3.62258e-8 + t * (-2.49004e-10 + t * 6.91503e-13)))));
    }

    /// <summary>Mean specific heat between two temperatures, kJ/(kg·K), by Simpson's rule.</summary>
    public static double MeanSpecificHeatKjPerKgK(double fromC, double toC) =>
        (SpecificHeatKjPerKgK(fromC) + 4 * SpecificHeatKjPerKgK(0.5 * (fromC + toC)) + SpecificHeatKjPerKgK(toC)) / 6;

    /// <summary>Latent heat of evaporation, kJ/kg; fit within 0.6.</summary>
    public static double LatentHeatKjPerKg(double temperatureC)
    {
        var t = Wanted.Within(temperatureC, 0, 100, "°C");
        return 2500.35 - t * (2.30294 + t * 1.2912e-3);
    }
}
