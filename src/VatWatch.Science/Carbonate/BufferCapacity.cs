namespace VatWatch.Science.Carbonate;

/// <summary>How much alkali moves pH by how much.</summary>
public static class BufferCapacity
{
    // Wide enough that rounding does not show, narrow enough that the curve is straight.
    private const double HalfStepPh = 0.01;

    /// <summary>
    /// dAlkalinity/dpH in eq/kg per pH of a bath with this total carbonate (mol/kg) at this pH, sodium being its only other ion: central difference of the
    /// full model, so that the change of the activity coefficients is counted.
    /// </summary>
    public static Estimate EquivalentsPerKgPerPh(double totalCarbonateMolal, double ph, double temperatureC)
    {
        Wanted.NotNegative(totalCarbonateMolal, "mol/kg");
        Wanted.Within(ph, BathEquilibrium.LowestPh + HalfStepPh, BathEquilibrium.HighestPh - HalfStepPh, "");
        var equilibrium = new EquilibriumAtTemperature(temperatureC);
        var above = equilibrium.BalancedBySodium(ph + HalfStepPh, totalCarbonateMolal);
        var below = equilibrium.BalancedBySodium(ph - HalfStepPh, totalCarbonateMolal);
        return new((below.NetCharge - above.NetCharge) / (2 * HalfStepPh), above.Extrapolated);
    }
}
