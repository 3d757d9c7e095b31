namespace VatWatch.Conditions.Stored;

/// <summary>A vat's condition as it was kept.</summary>
/// <param name="Id">Row; grows with every one kept and is never given twice.</param>
/// <param name="Utc">When it was worked out.</param>
/// <param name="UtcTrusted">Whether the wall clock was known to be right.</param>
/// <param name="Vat">The vat.</param>
/// <param name="State">The state word.</param>
/// <param name="Reasons">Why, in sentences in the dyer's units, weightiest first.</param>
/// <param name="Numbers">The numbers that were known, by the names of <see cref="ConditionNumbers"/>.</param>
public sealed record StoredCondition(
    long Id, DateTimeOffset Utc, bool UtcTrusted, VatId Vat, string State, IReadOnlyList<string> Reasons, IReadOnlyDictionary<string, double> Numbers);
