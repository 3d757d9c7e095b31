using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Dosing;

/// <summary>The doses that the history of a liquor allows, before any caution.</summary>
/// <param name="Dose">The dose to work towards: the likely one, or the smaller where the history is open.</param>
/// <param name="LowGrams">The least, g.</param>
/// <param name="HighGrams">The most, g; null where the larger way does not reach the target.</param>
/// <param name="SodaAshBeforeGramsPerLitre">Soda ash that may be in the liquor already, g/L.</param>
/// <param name="History">What was taken for the history, a sentence each.</param>
internal sealed record AlkaliEstimate(
    SodaAshDose Dose, double LowGrams, double? HighGrams, double SodaAshBeforeGramsPerLitre, IReadOnlyList<string> History);
