using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Carbonate;

/// <summary>Lime water without carbonate. Lime dissolves less as it gets warmer.</summary>
/// <param name="DissolvedMolal">Dissolved Ca(OH)2, mol/kg.</param>
/// <param name="Saturated">True if solid lime is left over.</param>
/// <param name="Bath">The solution at equilibrium.</param>
public readonly record struct LimeSolution(double DissolvedMolal, bool Saturated, BathSpeciation Bath)
{
    // Lime at 0 °C dissolves to 0.024 mol/kg, its highest in water.
    private const double MoreThanDissolvesMolal = 0.2;

    /// <summary>Grams of Ca(OH)2 dissolved per kg of water.</summary>
    public double DissolvedGramsPerKg => DissolvedMolal * AlkaliProduct.Lime.MolarMassGramsPerMol;

    /// <summary>Lime added to pure water, mol/kg, up to saturation at that temperature.</summary>
    public static LimeSolution Of(double addedMolal, double temperatureC)
    {
        Wanted.NotNegative(addedMolal, "mol/kg");
        var equilibrium = new EquilibriumAtTemperature(temperatureC);
        var solubility = Math.Pow(10, CarbonateConstants.Log10KLime(temperatureC));
        var trial = Math.Min(addedMolal, MoreThanDissolvesMolal);
        if (!Oversaturated(trial))
            return new(trial, false, Solve(trial));

        var dissolved = Bisection.Turn(0, trial, calcium => !Oversaturated(calcium));
        return new(dissolved, true, Solve(dissolved));

        BathSpeciation Solve(double calcium) => BathEquilibrium.Solve(new(0, 0, 0, calcium), equilibrium);

        bool Oversaturated(double calcium)
        {
            var bath = Solve(calcium);
            var activity = bath.CalciumMolal * equilibrium.Law.ActivityCoefficient(Ion.Calcium, bath.IonicStrengthMolal);
            return activity > solubility * Math.Pow(10, -2 * bath.Ph);
        }
    }

    /// <summary>Water with as much lime as it holds at that temperature.</summary>
    public static LimeSolution SaturatedAt(double temperatureC) => Of(MoreThanDissolvesMolal, temperatureC);
}
