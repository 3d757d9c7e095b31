namespace VatWatch.Science.Carbonate;

/// <summary>
/// Thermodynamic equilibrium constants of the carbonate bath on the molal scale, as base-10 logarithms of the temperature in °C.
/// Accepted 0 to 100 °C; the sources hold to 90 °C and the baths were checked to 60 °C.
/// </summary>
public static class CarbonateConstants
{
    /// <summary>Above this temperature results are marked as extrapolated: the buffers the model was checked against end here.</summary>
    public const double CheckedToC = 60;

    private const double GasConstantJPerMolK = 8.314462618;

    /// <summary>CO2(aq) + H2O = H+ + HCO3-. Plummer and Busenberg, Geochim. Cosmochim. Acta 46 (1982) 1011; 0 to 90 °C.</summary>
    public static double Log10K1(double temperatureC) =>
        FiveTerms(temperatureC, -356.3094, -0.06091964, 21834.37, 126.8339, -1684915);

    /// <summary>HCO3- = H+ + CO3--. Plummer and Busenberg 1982; 0 to 90 °C.</summary>
    public static double Log10K2(double temperatureC) =>
        FiveTerms(temperatureC, -107.8871, -0.03252849, 5151.79, 38.92561, -563713.9);

    /// <summary>CO2(g) = CO2(aq), mol/(kg·atm). Plummer and Busenberg 1982; 0 to 90 °C.</summary>
    public static double Log10KHenry(double temperatureC) =>
        FiveTerms(temperatureC, 108.3865, 0.01985076, -6919.53, -40.45154, 669365);

    /// <summary>H2O = H+ + OH-. The set of Nordstrom et al. 1990, which goes with the carbonate constants above.</summary>
    public static double Log10KWater(double temperatureC) =>
        FiveTerms(temperatureC, -283.9710, -0.05069842, 13323.00, 102.24447, -1119669);

    /// <summary>Ca++ + OH- = CaOH+; 1.22 at 25 °C, enthalpy +6 kJ/mol (the enthalpy from memory).</summary>
    public static double Log10KCalciumHydroxide(double temperatureC) => VantHoff(temperatureC, 1.22, 6_000);

    internal static double Kelvin(double temperatureC) => Wanted.Within(temperatureC, 0, 100, "°C") + 273.15;

    private static double FiveTerms(double temperatureC, double constant, double linear, double inverse, double logarithm, double inverseSquare)
    {
        var kelvin = Kelvin(temperatureC);
        return constant + linear * kelvin + inverse / kelvin + logarithm * Math.Log10(kelvin) + inverseSquare / (kelvin * kelvin);
    }

    private static double VantHoff(double temperatureC, double log10At25C, double enthalpyJPerMol) =>
        log10At25C - enthalpyJPerMol / (GasConstantJPerMolK * Math.Log(10)) * (1 / Kelvin(temperatureC) - 1 / 298.15);
}
