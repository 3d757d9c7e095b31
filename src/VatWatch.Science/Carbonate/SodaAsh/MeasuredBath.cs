namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>
/// The way back: from a measured pH, and one thing known besides, to the composition that explains it. Carbonate baths without calcium.
/// A pH alone does not fix the composition; the log of what was added does.
/// </summary>
public static class MeasuredBath
{
    /// <summary>
    /// Total carbonate (mol/kg) that gives <paramref name="ph"/> at a known alkalinity (eq/kg): what a bath has become by taking up carbon dioxide.
    /// False if no amount does, because lye of that alkalinity is already below the pH, or all of it as carbon dioxide is still above.
    /// </summary>
    public static bool TryTotalCarbonate(double ph, double alkalinityMolal, double temperatureC, out Estimate totalCarbonateMolal)
    {
        Wanted.Within(ph, BathEquilibrium.LowestPh, BathEquilibrium.HighestPh, "");
        Wanted.NotNegative(alkalinityMolal, "eq/kg");
        var equilibrium = new EquilibriumAtTemperature(temperatureC);

        // Twice the alkalinity and a tenth of a mole reaches far below pH 6 in any bath of this trade.
        var most = 2 * alkalinityMolal + 0.1;
        if (Alkalinity(0) > alkalinityMolal || Alkalinity(most) < alkalinityMolal)
        {
            totalCarbonateMolal = default;
            return false;
        }

        var carbonate = Bisection.Turn(0, most, trial => Alkalinity(trial) < alkalinityMolal);
        totalCarbonateMolal = new(carbonate, equilibrium.BalancedBySodium(ph, carbonate).Extrapolated);
        return true;

        double Alkalinity(double totalCarbonate) => -equilibrium.BalancedBySodium(ph, totalCarbonate).NetCharge;
    }

    /// <summary>
    /// The ledger check: equivalents of strong acid per kg that bring a bath of this sodium and carbonate to <paramref name="ph"/>. Its trend shows
    /// alkali being used up before pH does, since carbonate and bicarbonate hold pH. Negative means more alkali than the log knows of.
    /// </summary>
    public static Estimate StrongAcidMolal(double ph, BathComposition logged, double temperatureC)
    {
        Wanted.Within(ph, BathEquilibrium.LowestPh, BathEquilibrium.HighestPh, "");
        if (logged.CalciumMolal > 0)
            throw new ArgumentOutOfRangeException(nameof(logged), logged, $"logged has {logged.CalciumMolal} mol/kg of calcium; wanted a bath without.");
        var species = new EquilibriumAtTemperature(temperatureC).BalancedByAcid(ph, logged.SodiumMolal, logged.TotalCarbonateMolal);
        return new(logged.SodiumMolal + species.NetCharge, species.Extrapolated);
    }

    /// <summary>The logged bath with its acid set so that it has <paramref name="ph"/> at <paramref name="temperatureC"/>.</summary>
    public static BathComposition WithAcidFitted(double ph, BathComposition logged, double temperatureC) =>
        new(logged.SodiumMolal, logged.TotalCarbonateMolal, StrongAcidMolal(ph, logged, temperatureC).Value);
}
