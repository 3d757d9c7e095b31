namespace VatWatch.Science.Heat.Model;

/// <summary>
/// Heat needed per kelvin, J/K. Soda ash, indigo and yarn in the liquor change it by under 2 %; the filled volume is the main uncertainty.
/// </summary>
public static class VatHeatCapacity
{
    /// <summary>Specific heat of HDPE, J/(kg·K).</summary>
    public const double PlasticJPerKgK = 1900;

    /// <summary>Specific heat of wool, J/(kg·K); from memory.</summary>
    public const double WoolJPerKgK = 1360;

    /// <summary>Liquor of a volume measured at <paramref name="fromC"/>, meant to go to <paramref name="toC"/>.</summary>
    public static double LiquorJPerK(double volumeL, double fromC, double toC) =>
        Wanted.Positive(volumeL, "L") * WaterDensity.KgPerM3(fromC) * WaterHeat.MeanSpecificHeatKjPerKgK(fromC, toC);

    /// <summary>A mass of water at a temperature.</summary>
    public static double WaterJPerK(double kg, double temperatureC) =>
        Wanted.NotNegative(kg, "kg") * 1000 * WaterHeat.SpecificHeatKjPerKgK(temperatureC);

    /// <summary>The plastic vat and the gear hung in it.</summary>
    public static double ShellJPerK(double plasticKg, double gearJPerK = 2000) =>
        Wanted.NotNegative(plasticKg, "kg") * PlasticJPerKgK + Wanted.NotNegative(gearJPerK, "J/K");

    /// <summary>Wetted yarn: dry mass of wool or similar fibre and the water it carries.</summary>
    public static double WetYarnJPerK(double dryKg, double waterKg, double temperatureC) =>
        Wanted.NotNegative(dryKg, "kg") * WoolJPerKgK + WaterJPerK(waterKg, temperatureC);
}
