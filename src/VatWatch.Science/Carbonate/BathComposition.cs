using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Carbonate;

/// <summary>
/// What was put into the bath and is still there, in mol per kg of water. The default value is pure water. Immutable.
/// The bath counts as closed: neither carbon dioxide nor steam crosses its surface.
/// </summary>
public readonly record struct BathComposition
{
    /// <param name="sodiumMolal">Sodium from soda ash, bicarbonate and lye; 0 or more.</param>
    /// <param name="totalCarbonateMolal">CO3-- + HCO3- + CO2(aq); 0 or more.</param>
    /// <param name="strongAcidMolal">Net equivalents of strong acid set free in the bath; negative stands for alkali that was not logged.</param>
    /// <param name="calciumMolal">Dissolved calcium; 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative or non-finite amount.</exception>
    public BathComposition(double sodiumMolal, double totalCarbonateMolal, double strongAcidMolal = 0, double calciumMolal = 0)
    {
        SodiumMolal = Wanted.NotNegative(sodiumMolal, "mol/kg");
        TotalCarbonateMolal = Wanted.NotNegative(totalCarbonateMolal, "mol/kg");
        StrongAcidMolal = Wanted.Finite(strongAcidMolal, "mol/kg");
        CalciumMolal = Wanted.NotNegative(calciumMolal, "mol/kg");
    }

    public double SodiumMolal { get; }

    public double TotalCarbonateMolal { get; }

    public double StrongAcidMolal { get; }

    public double CalciumMolal { get; }

    /// <summary>Alkalinity, eq/kg. 1 meq/L is 50 mg/L counted as CaCO3.</summary>
    public double AlkalinityMolal => SodiumMolal - StrongAcidMolal + 2 * CalciumMolal;

    /// <summary>Adds a weighed amount of an alkali to a volume of water measured at <paramref name="volumeTemperatureC"/>.</summary>
    public BathComposition Add(AlkaliProduct product, double grams, double volumeL, double volumeTemperatureC)
    {
        return AddMolal(product, product.Molality(grams, volumeL, volumeTemperatureC));
    }

    /// <summary>
    /// Adds <paramref name="molal"/> mol/kg of an alkali. Lime meets carbonate first: Ca(OH)2 + Na2CO3 = CaCO3 + 2 NaOH, taken as complete;
    /// only the rest of the calcium stays in solution.
    /// </summary>
    public BathComposition AddMolal(AlkaliProduct product, double molal)
    {
        Wanted.NotNegative(molal, "mol/kg");
        var calcium = CalciumMolal + molal * product.CalciumPerMole;
        var carbonate = TotalCarbonateMolal + molal * product.CarbonatePerMole;
        var precipitated = Math.Min(calcium, carbonate);
        return new(SodiumMolal + molal * product.SodiumPerMole, carbonate - precipitated, StrongAcidMolal, calcium - precipitated);
    }

    /// <summary>Adds equivalents of strong acid (eq/kg), such as those a reducing agent sets free.</summary>
    public BathComposition AddAcid(double equivalentsPerKg) =>
        new(SodiumMolal, TotalCarbonateMolal, StrongAcidMolal + equivalentsPerKg, CalciumMolal);
}

/// <summary>Mass of the water in a vat, the base of the molal scale. Dissolved substance is not counted (under 2 % in a dye bath).</summary>
public static class WaterMass
{
    /// <summary>kg of water in <paramref name="volumeL"/> measured at <paramref name="temperatureC"/> (0 to 100 °C).</summary>
    public static double Kg(double volumeL, double temperatureC) =>
        Wanted.Positive(volumeL, "L") * WaterDensity.KgPerM3(Wanted.Within(temperatureC, 0, 100, "°C")) / 1000;
}
