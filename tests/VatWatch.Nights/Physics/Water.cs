namespace VatWatch.Nights.Physics;

/// <summary>Water and the moist air above it, by published equations other than those the watch uses.</summary>
internal static class Water
{
    /// <summary>J/(kg K), taken as the same at every warmth of a vat (it varies by 0.4 % from 15 to 100 °C).</summary>
    public const double HeatCapacity = 4190;

    private const double GasConstantOfVapour = 461.5;
    private const double GasConstantOfAir = 287.05;
    private const double Gravity = 9.81;

    /// <summary>Vapour pressure over water, Pa: Buck, J. Appl. Meteorol. 20 (1981) 1527, with the constants of his 1996 revision (from memory; 101.3 kPa at 100 °C).</summary>
    public static double VapourPressure(double celsius) => 611.21 * Math.Exp((18.678 - celsius / 234.5) * celsius / (257.14 + celsius));

    /// <summary>Latent heat, J/kg: the straight line of meteorology, 2.501 MJ/kg less 2.36 kJ/kg for each K (from memory).</summary>
    public static double LatentHeat(double celsius) => 2.501e6 - 2360 * celsius;

    /// <summary>Pressure of the standard atmosphere (ISO 2533), Pa.</summary>
    public static double Pressure(double altitudeMetres) => 101_325 * Math.Pow(1 - 2.25577e-5 * altitudeMetres, 5.25588);

    /// <summary>Where water boils at a pressure, °C: the vapour pressure turned round.</summary>
    public static double BoilingPoint(double pressure)
    {
        var (low, high) = (60.0, 110.0);
        for (var i = 0; i < 50; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = VapourPressure(middle) < pressure ? (middle, high) : (low, middle);
        }

        return low;
    }

    /// <summary>
    /// Heat transfer by still air above a warm wet surface, W/(m² K): free turbulent convection over a hot plate, Nu = 0.14 Ra^(1/3) (McAdams), driven by the
    /// difference in density of the moist air. The size of the plate drops out.
    /// </summary>
    public static double StillAirTransfer(double surface, double room, double humidity, double pressure)
    {
        var (over, away) = (Density(surface, 1, pressure), Density(room, humidity, pressure));
        var drive = Math.Max(0, away - over) / away;
        const double conductivity = 0.026, viscosity = 1.6e-5, diffusivity = 2.25e-5;
        return 0.14 * conductivity * Math.Cbrt(Gravity * drive / (viscosity * diffusivity));
    }

    /// <summary>
    /// Evaporation, kg/(m² s), from the heat transfer by Lewis's relation: h_m = h / (ρ c_p Le^(2/3)), driven by the difference in density of the vapour. Stefan's
    /// flow is counted (ln-mean of the air), which matters near boiling.
    /// </summary>
    public static double Evaporation(double transfer, double surface, double room, double humidity, double pressure)
    {
        const double lewisTwoThirds = 0.90, airHeat = 1007;
        var (over, away) = (Math.Min(VapourPressure(surface), 0.98 * pressure), humidity * VapourPressure(room));
        var film = transfer / (pressure / (GasConstantOfAir * (room + 273.15)) * airHeat * lewisTwoThirds);
        var mean = (surface + room) / 2 + 273.15;
        return film * pressure / (GasConstantOfVapour * mean) * Math.Log((pressure - away) / (pressure - over));
    }

    private static double Density(double celsius, double humidity, double pressure)
    {
        var vapour = Math.Min(humidity * VapourPressure(celsius), pressure);
        return ((pressure - vapour) / GasConstantOfAir + vapour / GasConstantOfVapour) / (celsius + 273.15);
    }
}
