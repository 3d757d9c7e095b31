namespace VatWatch.Science.Carbonate;

/// <summary>The bath at equilibrium at one temperature. Concentrations in mol per kg of water; pH is the activity pH at that temperature.</summary>
/// <param name="Ph">pH at that temperature, not corrected to 25 °C.</param>
/// <param name="HydrogenMolal">[H+].</param>
/// <param name="HydroxideMolal">[OH-].</param>
/// <param name="CarbonDioxideMolal">[CO2(aq)].</param>
/// <param name="BicarbonateMolal">[HCO3-].</param>
/// <param name="CarbonateMolal">[CO3--].</param>
/// <param name="CalciumMolal">[Ca++].</param>
/// <param name="CalciumHydroxideMolal">[CaOH+].</param>
/// <param name="Extrapolated">True above 60 °C or above an ionic strength of 3 mol/kg.</param>
public readonly record struct BathSpeciation(
    double TemperatureC,
    double Ph,
    double IonicStrengthMolal,
    double HydrogenMolal,
    double HydroxideMolal,
    double CarbonDioxideMolal,
    double BicarbonateMolal,
    double CarbonateMolal,
    double CalciumMolal,
    double CalciumHydroxideMolal,
    bool Extrapolated)
{
    /// <summary>
    /// Below this pH soda ash is spent and the sulfite pair takes over, which this model leaves out; near pH 7 a bath holding sulfite gives off SO2.
    /// </summary>
    public const double AlkaliSpentBelowPh = 8;

    /// <summary>Positive less negative charge of the species named here, eq/kg; sodium and the anions of added acid are not among them.</summary>
    internal double NetCharge =>
        HydrogenMolal + 2 * CalciumMolal + CalciumHydroxideMolal - HydroxideMolal - BicarbonateMolal - 2 * CarbonateMolal;
}
