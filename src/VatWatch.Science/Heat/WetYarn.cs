using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Heat;

/// <summary>Wetted yarn that goes into the vat at one temperature. Wool's specific heat is taken for every fibre; the water outweighs it tenfold.</summary>
public readonly record struct WetYarn
{
    /// <param name="dryKg">Dry weight, kg, 0 or more.</param>
    /// <param name="waterKg">Water it carries, kg, 0 or more; drained yarn carries 1.5 to 3 times its dry weight (an estimate).</param>
    /// <param name="temperatureC">Its temperature, 0 to 100 °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside the range named for it.</exception>
    public WetYarn(double dryKg, double waterKg, double temperatureC)
    {
        DryKg = Wanted.NotNegative(dryKg, "kg");
        WaterKg = Wanted.NotNegative(waterKg, "kg");
        TemperatureC = Wanted.Within(temperatureC, 0, 100, "°C");
    }

    public double DryKg { get; }

    public double WaterKg { get; }

    public double TemperatureC { get; }

    /// <summary>Heat it takes up per kelvin, J/K.</summary>
    public double CapacityJPerK => VatHeatCapacity.WetYarnJPerK(DryKg, WaterKg, TemperatureC);

    /// <summary>How much it cools a vat by going in, K; negative if it is the warmer.</summary>
    /// <param name="vatJPerK">Heat capacity of the vat, above 0.</param>
    /// <param name="vatC">Temperature of the vat.</param>
    public double DropK(double vatJPerK, double vatC) => vatC - Mixing.TemperatureC(vatJPerK, vatC, CapacityJPerK, TemperatureC);
}
