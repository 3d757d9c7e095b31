namespace VatWatch.Science.Carbonate;

/// <summary>
/// The pH of a bath of known composition. To be promised: ±0.02 for pure soda ash and bicarbonate baths of 5 to 60 °C up to an ionic strength of
/// 0.3 mol/kg, ±0.05 to 0.1 up to 3 mol/kg, ±0.1 to 0.2 in a real dye bath with its unknown salts.
/// </summary>
public static class BathEquilibrium
{
    internal const double LowestPh = 2;
    internal const double HighestPh = 14.5;

    /// <summary>Solves the charge balance by bisection between pH 2 and 14.5, activity coefficients after the extended Debye-Hückel law.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Temperature outside 0 to 100 °C, or a composition whose pH lies outside 2 to 14.5.</exception>
    public static BathSpeciation Solve(BathComposition bath, double temperatureC) => Solve(bath, new EquilibriumAtTemperature(temperatureC));

    internal static BathSpeciation Solve(BathComposition bath, EquilibriumAtTemperature equilibrium)
    {
        if (Excess(LowestPh) < 0 || Excess(HighestPh) > 0)
            throw new ArgumentOutOfRangeException(
                nameof(bath), bath, $"bath has an alkalinity of {bath.AlkalinityMolal} eq/kg; wanted one whose pH lies between {LowestPh} and {HighestPh}.");
        return equilibrium.At(Bisection.Turn(LowestPh, HighestPh, ph => Excess(ph) > 0), bath);

        double Excess(double ph) => bath.SodiumMolal - bath.StrongAcidMolal + equilibrium.At(ph, bath).NetCharge;
    }
}
