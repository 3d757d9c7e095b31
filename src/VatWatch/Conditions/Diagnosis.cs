namespace VatWatch.Conditions;

/// <summary>One thing that seems wrong, with the sentence that says why. An opinion from the readings: it asks for a look, it proves nothing.</summary>
/// <param name="Kind">What.</param>
/// <param name="Sentence">Why, with its numbers; ends in a full stop.</param>
public sealed record Diagnosis(DiagnosisKind Kind, Sentence Sentence)
{
    /// <summary>When it began, as far as can be told; null when that is not known.</summary>
    public Stamp? Since { get; init; }

    /// <summary>The probe it is about; null where it is about the vat.</summary>
    public ProbeId? Probe { get; init; }

    /// <summary>One that began at a monotonic time.</summary>
    internal static Diagnosis Made(DiagnosisKind kind, Stamp now, TimeSpan since, Sentence sentence) => new(kind, sentence) { Since = now.Plus(since - now.Monotonic) };
}
