namespace VatWatch.Conditions;

/// <summary>One thing that seems wrong, with the sentence that says why.</summary>
/// <param name="Kind">What.</param>
/// <param name="Sentence">Why, in the dyer's units and with its numbers; ends in a full stop.</param>
public sealed record Diagnosis(DiagnosisKind Kind, string Sentence);
