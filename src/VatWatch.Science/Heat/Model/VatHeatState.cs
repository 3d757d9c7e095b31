namespace VatWatch.Science.Heat.Model;

/// <summary>State of a simulated vat: one mixed mass of liquor.</summary>
/// <param name="TemperatureC">0 to 100 °C.</param>
/// <param name="WaterKg">Mass of the liquor counted as water; evaporation takes from it.</param>
public readonly record struct VatHeatState(double TemperatureC, double WaterKg)
{
    public double VolumeL => 1000 * WaterKg / WaterDensity.KgPerM3(TemperatureC);

    public static VatHeatState OfVolume(double temperatureC, double volumeL) =>
        new(temperatureC, Wanted.Positive(volumeL, "L") * WaterDensity.KgPerM3(Wanted.Within(temperatureC, 0, 100, "°C")) / 1000);
}
