namespace VatWatch.Science.Heat.Model;

/// <summary>
/// Evaporation from still open water, kg per hour and m². ±25 % is honest. Freeboard, flower and an oily film reduce it; stirring, a fan and lifting
/// yarn raise it. Condensation on water cooler than the dew point is not counted: the result is then 0.
/// </summary>
public static class Evaporation
{
    private const double AtmosphericPa = 101325;
    private const double DryAirGasConstant = 287.055;
    private const double VapourToAirMass = 0.62198;

    // Above this the surface is treated as boiling, where no film of air is left.
    private const double HighestC = 99.9;

    /// <summary>
    /// Natural convection after Shah (ASHRAE Trans. 120(2), 2014; constants from memory), in its author's test of 1992 to 2002 data the best of eleven
    /// (water 7 to 94 °C, air 6 to 35 °C, humidity 28 to 95 %; mean deviation 18 %). Its constant steps from 40 to 35 where the air at the
    /// surface is lighter by 0.02 kg/m³, a few kelvin above the room.
    /// </summary>
    /// <param name="waterC">Surface, 0 to 100 °C; above 99.9 °C the value at 99.9 °C.</param>
    /// <param name="airC">Room, 0 to 60 °C.</param>
    /// <param name="relativeHumidity">0 to 1.</param>
    public static double ShahKgPerM2H(double waterC, double airC, double relativeHumidity)
    {
        var waterPa = SurfacePa(waterC);
        var airPa = RoomPa(airC, relativeHumidity);
        if (waterPa <= airPa)
            return 0;
        var surfaceDensity = DryAirDensity(waterPa, waterC);
        var roomDensity = DryAirDensity(airPa, airC);
        var rise = Math.Max(0, roomDensity - surfaceDensity);
        var factor = rise > 0.02 ? 35 : 40;
        var convection = factor * surfaceDensity * Math.Cbrt(rise) * (HumidityRatio(waterPa) - HumidityRatio(airPa));
        return Math.Max(convection, 5e-5 * (waterPa - airPa));
    }

    private static double SurfacePa(double waterC) => SaturationPressure.Pa(Math.Min(HighestC, Wanted.Within(waterC, 0, 100, "°C")));

    private static double RoomPa(double airC, double relativeHumidity) =>
        Wanted.Within(relativeHumidity, 0, 1, "") * SaturationPressure.Pa(Wanted.Within(airC, 0, 60, "°C"));

    private static double HumidityRatio(double vapourPa) => VapourToAirMass * vapourPa / (AtmosphericPa - vapourPa);

    private static double DryAirDensity(double vapourPa, double temperatureC) =>
        (AtmosphericPa - vapourPa) / (DryAirGasConstant * (temperatureC + 273.15));
}
