namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>
/// Alkali eaten by a gram of pure reducing agent or dye at pH 9 to 11, by element and charge balance on the published routes (Svarovsky 2000; Gao et
/// al., J. Phys. Chem. A 111 (2007) 872; Chigwada and Simoyi 2005). Balanced arithmetic, not a measured bath.
/// </summary>
/// <param name="HydroxidePerMole">Moles of OH- eaten per mole.</param>
public readonly record struct AlkaliDemand(int HydroxidePerMole, double MolarMassGramsPerMol)
{
    /// <summary>(NH2)2CSO2 + 2 OH- + O2 = (NH2)2CO + SO4-- + H2O; the same if it stops at sulfite.</summary>
    public static AlkaliDemand ThioureaDioxideByAir => new(2, 108.12);

    /// <summary>(NH2)2CSO2 + 3 OH- + indigo = (NH2)2CO + SO3-- + HL- + H2O. The dye's own share is within it.</summary>
    public static AlkaliDemand ThioureaDioxideByDye => new(3, 108.12);

    /// <summary>S2O4-- + 2 OH- + O2 = SO3-- + SO4-- + H2O, per gram of the sodium salt.</summary>
    public static AlkaliDemand DithioniteByAir => new(2, 174.11);

    /// <summary>S2O4-- + 3 OH- + indigo = 2 SO3-- + HL- + H2O. The dye's own share is within it.</summary>
    public static AlkaliDemand DithioniteByDye => new(3, 174.11);

    /// <summary>Indigo held as the ion HL-; on airing it gives this alkali back, mostly with the yarn.</summary>
    public static AlkaliDemand LeucoIndigo => new(1, 262.27);

    /// <summary>meq of OH- per gram.</summary>
    public double MeqPerGram => 1000.0 * HydroxidePerMole / MolarMassGramsPerMol;

    /// <summary>Grams of anhydrous soda ash per gram, each carbonate going to bicarbonate.</summary>
    public double SodaAshGramsPerGram => MeqPerGram / 1000 * AlkaliProduct.SodaAsh.MolarMassGramsPerMol;

    /// <summary>Acid set free in the bath, eq per kg of water, when <paramref name="grams"/> have reacted.</summary>
    public double AcidMolal(double grams, double volumeL, double temperatureC) =>
        Wanted.NotNegative(grams, "g") * MeqPerGram / 1000 / WaterMass.Kg(volumeL, temperatureC);
}
