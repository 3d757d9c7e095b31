namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>An alkali as bought, and what one mole of it brings into the bath.</summary>
public sealed record AlkaliProduct
{
    private AlkaliProduct(string name, double molarMass, int sodium, int carbonate, int calcium)
    {
        Name = name;
        MolarMassGramsPerMol = molarMass;
        SodiumPerMole = sodium;
        CarbonatePerMole = carbonate;
        CalciumPerMole = calcium;
    }

    /// <summary>Anhydrous sodium carbonate, Na2CO3.</summary>
    public static AlkaliProduct SodaAsh { get; } = new("soda ash", 105.988, 2, 1, 0);

    /// <summary>Washing soda crystals, Na2CO3·10H2O; the water they bring is not counted.</summary>
    public static AlkaliProduct SodaAshDecahydrate { get; } = new("washing soda (decahydrate)", 286.14, 2, 1, 0);

    /// <summary>NaHCO3.</summary>
    public static AlkaliProduct Bicarbonate { get; } = new("sodium bicarbonate", 84.007, 1, 1, 0);

    /// <summary>Caustic soda, NaOH. Never for protein fibre.</summary>
    public static AlkaliProduct Lye { get; } = new("lye", 39.997, 1, 0, 0);

    /// <summary>Slaked lime, Ca(OH)2. Never for protein fibre.</summary>
    public static AlkaliProduct Lime { get; } = new("slaked lime", 74.09, 0, 0, 1);

    public string Name { get; }

    public double MolarMassGramsPerMol { get; }

    public int SodiumPerMole { get; }

    public int CarbonatePerMole { get; }

    public int CalciumPerMole { get; }

    /// <summary>Molality (mol/kg of water) of <paramref name="grams"/> in <paramref name="volumeL"/> of water measured at <paramref name="volumeTemperatureC"/>.</summary>
    public double Molality(double grams, double volumeL, double volumeTemperatureC) =>
        Wanted.NotNegative(grams, "g") / (MolarMassGramsPerMol * WaterMass.Kg(volumeL, volumeTemperatureC));

    /// <summary>Grams that make <paramref name="molal"/> (mol/kg of water) in that water: the inverse of <see cref="Molality"/>.</summary>
    public double Grams(double molal, double volumeL, double volumeTemperatureC) =>
        Wanted.NotNegative(molal, "mol/kg") * MolarMassGramsPerMol * WaterMass.Kg(volumeL, volumeTemperatureC);
}
