namespace VatWatch.Science.Electrodes;

/// <summary>The Nernst slope and the two constants it rests on.</summary>
public static class Nernst
{
    /// <summary>Molar gas constant, J/(mol·K). Source: CODATA 2018, exact.</summary>
    public const double GasConstantJoulesPerMoleKelvin = 8.314462618;

    /// <summary>Faraday constant, C/mol. Source: CODATA 2018, exact.</summary>
    public const double FaradayCoulombsPerMole = 96485.33212;

    private static readonly double Ln10 = Math.Log(10);

    /// <summary>
    /// What an ideal electrode gives for one unit of pH, mV: ln 10 · R · T / F, 59.159 mV at 25 °C.
    /// </summary>
    /// <param name="temperatureC">Temperature at the electrode, °C, above −273.15.</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public static double SlopeMillivoltsPerPh(double temperatureC)
        => 1000 * Ln10 * GasConstantJoulesPerMoleKelvin * Wanted.Kelvin(temperatureC) / FaradayCoulombsPerMole;
}
