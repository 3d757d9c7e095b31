namespace VatWatch.Science.Carbonate;

/// <summary>
/// Carbon dioxide taken from the air by an alkaline bath, mmol/h, with its factor-of-two range. Stirring, splashing or bubbling can raise it tenfold.
/// </summary>
/// <param name="LowMmolPerHour">Half the estimate.</param>
/// <param name="MmolPerHour">The estimate for a quiet surface.</param>
/// <param name="HighMmolPerHour">Twice the estimate.</param>
public readonly record struct CarbonDioxideUptake(double LowMmolPerHour, double MmolPerHour, double HighMmolPerHour)
{
    /// <summary>Mole fraction of carbon dioxide in outdoor air, parts per million.</summary>
    public const double OutdoorPpm = 420;

    // Film coefficient of a quiet surface: an estimate, good to a factor of two.
    private const double QuietFilmMPerS = 1e-5;

    // Diffusion coefficient at 25 and 45 °C, from memory; joined by an Arrhenius line.
    private const double DiffusivityAt25C = 1.92e-9;
    private const double DiffusivityAt45C = 3.0e-9;

    private const double Uncertainty = 2;

    /// <summary>
    /// Uptake through <paramref name="surfaceM2"/> of open surface: film theory with reaction, E = Ha/tanh Ha, the rate of CO2 + OH- after Pinsent et
    /// al. 1956 (from memory).
    /// </summary>
    /// <param name="hydroxideMolal">[OH-] of the bath.</param>
    /// <param name="temperatureC">0 to 100 °C.</param>
    /// <param name="surfaceM2">Open surface; 0 or more.</param>
    /// <param name="airPpm">Carbon dioxide in the air of the room.</param>
    public static CarbonDioxideUptake Of(double hydroxideMolal, double temperatureC, double surfaceM2, double airPpm = OutdoorPpm)
    {
        Wanted.NotNegative(hydroxideMolal, "mol/kg");
        Wanted.NotNegative(surfaceM2, "m²");
        Wanted.Within(airPpm, 0, 1e6, "ppm");
        var kelvin = CarbonateConstants.Kelvin(temperatureC);
        var litresPerKg = 1000 / WaterDensity.KgPerM3(temperatureC);
        var rateLPerMolS = Math.Pow(10, 13.635 - 2895 / kelvin);
        var hatta = Math.Sqrt(Diffusivity(kelvin) * rateLPerMolS * hydroxideMolal / litresPerKg) / QuietFilmMPerS;
        var enhancement = hatta < 1e-6 ? 1 : hatta / Math.Tanh(hatta);
        var surfaceMolPerM3 = Math.Pow(10, CarbonateConstants.Log10KHenry(temperatureC)) * airPpm * 1e-6 * 1000 / litresPerKg;
        var mmolPerHour = enhancement * QuietFilmMPerS * surfaceMolPerM3 * surfaceM2 * 3600 * 1000;
        return new(mmolPerHour / Uncertainty, mmolPerHour, mmolPerHour * Uncertainty);
    }

    private static double Diffusivity(double kelvin)
    {
        var share = (1 / kelvin - 1 / 298.15) / (1 / 318.15 - 1 / 298.15);
        return DiffusivityAt25C * Math.Pow(DiffusivityAt45C / DiffusivityAt25C, share);
    }
}
