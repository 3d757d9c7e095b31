namespace VatWatch.Science.Dosing;

/// <summary>
/// The question for a dose of soda ash. Nothing is checked here: <see cref="AlkaliDosing.Answer"/> refuses what cannot be, with a sentence.
/// </summary>
/// <param name="VolumeL">Liquor in the vat, L.</param>
/// <param name="TemperatureC">Its temperature, °C, at which both pH values count.</param>
/// <param name="Ph">pH now.</param>
/// <param name="TargetPh">Wanted pH.</param>
public sealed record AlkaliDoseRequest(double VolumeL, double TemperatureC, double Ph, double TargetPh)
{
    /// <summary>
    /// Alkalinity, meq/L (1 meq/L is 50 mg/L counted as CaCO3): of the liquor; or, where soda ash is logged too, of the water before it. Null: not known.
    /// </summary>
    public double? AlkalinityMeqPerLitre { get; init; }

    /// <summary>Anhydrous soda ash given to this liquor so far, g; 0 for fresh water; null: not known.</summary>
    public double? SodaAshSoFarGrams { get; init; }

    /// <summary>
    /// All carbonate in the liquor by the ledger of its vat, mmol/L; null: no ledger. With it the pH fixes the acid, and <see cref="Factor"/> says how far the vat goes with theory.
    /// </summary>
    public double? CarbonateMmolPerLitre { get; init; }

    /// <summary>What the vat's past doses say against theory; counts with <see cref="CarbonateMmolPerLitre"/> only.</summary>
    public DoseFactor Factor { get; init; } = DoseFactor.Untried(UntriedSigma);

    /// <summary>How far a liquor of known carbonate goes from theory, as a logarithm: dye, fibre and salts buffer too, and the liquor is not measured (a judgement).</summary>
    public const double UntriedSigma = 0.35;

    /// <summary>What is dyed; null: not said, and then protein fibre is taken, which stands less alkali.</summary>
    public FibreLimit? Fibre { get; init; }
}
