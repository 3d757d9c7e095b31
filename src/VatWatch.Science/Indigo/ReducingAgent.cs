using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Indigo;

/// <summary>
/// A reducing agent and what it can do, by the electron balance of its half reactions. Indigo takes 2 electrons, oxygen 4.
/// Immutable; safe on any thread.
/// </summary>
/// <param name="DyeElectrons">Electrons one molecule gives to indigo.</param>
/// <param name="LeastOxygenElectrons">Electrons one molecule is sure to give to oxygen.</param>
/// <param name="MostOxygenElectrons">Electrons one molecule can give to oxygen at best.</param>
/// <param name="AlkaliByOxygen">Alkali it eats when air burns it; none when not known.</param>
/// <param name="AlkaliByDye">Alkali it eats when it reduces indigo to the mono-ion; none when not known.</param>
public sealed record ReducingAgent(
    Substance Substance,
    int DyeElectrons,
    int LeastOxygenElectrons,
    int MostOxygenElectrons,
    AlkaliDemand? AlkaliByOxygen = null,
    AlkaliDemand? AlkaliByDye = null)
{
    /// <summary>
    /// Thiourea dioxide. In alkali it gives sulfoxylate (Svarovsky et al., J. Chem. Soc. Dalton Trans., 2000, 511), which gives indigo
    /// 2 electrons and becomes sulfite; with oxygen it may go on to sulfate, 4 electrons (Chigwada and Simoyi, J. Phys. Chem. A
    /// 109, 2005, 1094). Which of the two a vat does is not known: show a range.
    /// </summary>
    public static ReducingAgent ThioureaDioxide { get; } =
        new(Substances.ThioureaDioxide, 2, 2, 4, AlkaliDemand.ThioureaDioxideByAir, AlkaliDemand.ThioureaDioxideByDye);

    /// <summary>Sodium dithionite: 2 electrons to indigo; with oxygen 1 mol to 1 mol, 4 electrons (regulatory registration dossier).</summary>
    public static ReducingAgent Dithionite { get; } =
        new(Substances.SodiumDithionite, 2, 4, 4, AlkaliDemand.DithioniteByAir, AlkaliDemand.DithioniteByDye);

    /// <summary>Fructose or glucose, nominally 2 electrons (to gluconate); hot alkali makes other fragments, so the yield is not fixed.</summary>
    public static ReducingAgent Fructose { get; } = new(Substances.Fructose, 2, 2, 2);

    /// <summary>Copperas with lime: iron(II) to iron(III), 1 electron.</summary>
    public static ReducingAgent Copperas { get; } = new(Substances.Copperas, 1, 1, 1);

    /// <summary>Zinc dust with lime: 2 electrons.</summary>
    public static ReducingAgent Zinc { get; } = new(Substances.Zinc, 2, 2, 2);

    public static IReadOnlyList<ReducingAgent> All { get; } = [ThioureaDioxide, Dithionite, Fructose, Copperas, Zinc];

    /// <summary>Grams of pure agent that reduce 1 g of pure indigo, by theory.</summary>
    public double GramsPerGramIndigo
        => Electrons.ForIndigo * MolesPerGram(Substances.Indigo) * Substance.MolarMassGramsPerMole / DyeElectrons;

    /// <summary>Grams of pure agent that 1 g of oxygen burns, from the best case to the sure one.</summary>
    public MassRange GramsPerGramOxygen => new(PerGramOxygen(MostOxygenElectrons), PerGramOxygen(LeastOxygenElectrons));

    private double PerGramOxygen(int electrons)
        => Electrons.ForOxygen * MolesPerGram(Substances.Oxygen) * Substance.MolarMassGramsPerMole / electrons;

    private static double MolesPerGram(Substance substance) => 1 / substance.MolarMassGramsPerMole;
}

/// <summary>Electrons taken by what a reducing agent is spent on.</summary>
internal static class Electrons
{
    /// <summary>Indigo + 2 e⁻ + 2 H⁺ → leuco-indigo (Bond et al., J. Chem. Soc. Perkin Trans. 2, 1997, 1735).</summary>
    internal const int ForIndigo = 2;

    /// <summary>O₂ + 4 e⁻ + 2 H₂O → 4 OH⁻.</summary>
    internal const int ForOxygen = 4;
}
