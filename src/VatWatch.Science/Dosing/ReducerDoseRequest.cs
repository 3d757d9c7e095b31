namespace VatWatch.Science.Dosing;

/// <summary>
/// The question for a dose of reducing agent. Nothing is checked here: <see cref="ReducerDosing.Answer"/> refuses what cannot be, with a sentence.
/// </summary>
/// <param name="Kind">The reducing agent.</param>
/// <param name="VolumeL">Liquor in the vat, L.</param>
/// <param name="TemperatureC">Its temperature, °C.</param>
/// <param name="DyeGrams">Dye to be reduced, as weighed, g; 0 where only oxygen is to be cleared.</param>
public sealed record ReducerDoseRequest(ReducerKind Kind, double VolumeL, double TemperatureC, double DyeGrams)
{
    /// <summary>Share of indigotin in the dye, above 0 to 1; null: not known, and counted as all.</summary>
    public double? DyeAssay { get; init; }

    /// <summary>How many times theory to give the dye, 1 to 20; null: theory, with the trade's excess as the upper end.</summary>
    public double? Excess { get; init; }

    /// <summary>True where the liquor is fresh water full of air, whose oxygen must be cleared first.</summary>
    public bool ClearOxygen { get; init; }

    /// <summary>Share of reducing agent in what is weighed, above 0 to 1.</summary>
    public double AgentAssay { get; init; } = 1;

    /// <summary>Further oxygen to be burnt, g: a day's uptake through the surface, air carried in by yarn; see <see cref="Oxygen.OxygenLoad"/>.</summary>
    public MassRange FurtherOxygen { get; init; }
}
