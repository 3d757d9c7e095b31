namespace VatWatch.Science.Carbonate;

/// <summary>Mass of the water in a vat, the base of the molal scale. Dissolved substance is not counted (under 2 % in a dye bath).</summary>
public static class WaterMass
{
    /// <summary>kg of water in <paramref name="volumeL"/> measured at <paramref name="temperatureC"/> (0 to 100 °C).</summary>
    public static double Kg(double volumeL, double temperatureC) =>
        Wanted.Positive(volumeL, "L") * WaterDensity.KgPerM3(Wanted.Within(temperatureC, 0, 100, "°C")) / 1000;
}
