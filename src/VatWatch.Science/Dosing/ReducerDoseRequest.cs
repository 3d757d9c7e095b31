namespace VatWatch.Science.Dosing;

/// <summary>
/// The question for a dose of reducing agent. Nothing is checked here: <see cref="ReducerDosing.Answer"/> refuses what cannot be, with a sentence.
/// </summary>
/// <param name="VolumeL">Liquor in the vat, L.</param>
/// <param name="TemperatureC">Its temperature, °C.</param>
/// <param name="DyeGrams">Dye to be reduced, as weighed, g; 0 where only oxygen is to be cleared.</param>
public sealed record ReducerDoseRequest(ReducerKind Kind, double VolumeL, double TemperatureC, double DyeGrams)
{
    /// <summary>Share of indigotin in the dye, above 0 to 1; null: not known, and counted as all.</summary>
    public double? DyeAssay { get; init; }

    /// <summary>How many times theory to give the dye, 1 to 20; null: as the trade does, which also counts what is sold as not pure and a day's air.</summary>
    public double? Excess { get; init; }

    /// <summary>True where the liquor is fresh water full of air, whose oxygen must be cleared first.</summary>
    public bool ClearOxygen { get; init; }

    /// <summary>Share of reducing agent in what is weighed, above 0 to 1; null: as sold with the trade's excess, pure with an excess that was asked for.</summary>
    public double? AgentAssay { get; init; }

    /// <summary>
    /// Further oxygen to be burnt, g, such as a day's uptake through the surface; see <see cref="Oxygen.OxygenLoad"/>. Null: a day of dyeing with the trade's excess, none with an
    /// excess that was asked for.
    /// </summary>
    public MassRange? FurtherOxygen { get; init; }

    /// <summary>The ORP of a working vat and the one that is wanted; with it the dose is that share of the one for <see cref="DyeGrams"/>. Null: all of that.</summary>
    public Sharpening? Sharpening { get; init; }

    /// <summary>What the vat's past doses say against theory; counts with <see cref="Sharpening"/> only.</summary>
    public DoseFactor Factor { get; init; } = DoseFactor.Untried(UntriedSigma);

    /// <summary>How far a vat that was never seen to answer may go from theory, as a logarithm: nearly threefold either way (a judgement).</summary>
    public const double UntriedSigma = 0.8;

    /// <summary>Whether dye is to be given what the trade gives.</summary>
    internal bool IsUsual => Excess is null && DyeGrams > 0 && !Kind.IsMadeByRatio;

    /// <summary>The share that counts.</summary>
    internal double Assay => AgentAssay ?? (IsUsual ? Kind.UsualAssay : 1);
}
