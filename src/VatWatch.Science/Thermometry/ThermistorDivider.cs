namespace VatWatch.Science.Thermometry;

/// <summary>
/// The resistance of a thermistor in series with a known resistor. Reading the divider and its supply with the same converter and
/// passing their ratio takes the supply's error out.
/// </summary>
public static class ThermistorDivider
{
    /// <summary>Thermistor between the tap and ground: R = R_s V / (V_s − V), Ω.</summary>
    /// <param name="seriesOhm">Known resistor between supply and tap, Ω, above 0.</param>
    /// <param name="tapVolts">Voltage at the tap against ground, V.</param>
    /// <param name="supplyVolts">Supply of the divider against ground, V, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is not above 0, or the tap is not below the supply: a short or an open circuit.</exception>
    public static double ToGroundOhm(double seriesOhm, double tapVolts, double supplyVolts)
        => ToGroundOhm(seriesOhm, Wanted.Finite(tapVolts, "V") / Wanted.Positive(supplyVolts, "V"));

    /// <summary>Thermistor between the tap and ground, by the ratio of tap to supply: R = R_s r / (1 − r), Ω.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The resistor is not above 0, or the ratio is not between 0 and 1: a short or an open circuit.</exception>
    public static double ToGroundOhm(double seriesOhm, double tapToSupplyRatio)
        => Wanted.Positive(seriesOhm, "Ω") * Ratio(tapToSupplyRatio) / (1 - tapToSupplyRatio);

    /// <summary>Thermistor between supply and tap, by the ratio of tap to supply: R = R_s (1 − r) / r, Ω.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The resistor is not above 0, or the ratio is not between 0 and 1: a short or an open circuit.</exception>
    public static double ToSupplyOhm(double seriesOhm, double tapToSupplyRatio)
        => Wanted.Positive(seriesOhm, "Ω") * (1 - Ratio(tapToSupplyRatio)) / tapToSupplyRatio;

    private static double Ratio(double tapToSupplyRatio)
        => tapToSupplyRatio is > 0 and < 1
            ? tapToSupplyRatio
            : throw Wanted.Refusal(
                tapToSupplyRatio, nameof(tapToSupplyRatio), "between 0 and 1 without the ends (0 or 1 is a short or an open circuit)");
}
