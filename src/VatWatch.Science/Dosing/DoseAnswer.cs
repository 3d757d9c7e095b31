using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Science.Dosing;

/// <summary>What a question for a dose comes to: advice, or a refusal with its reason; never both. Immutable; safe on any thread.</summary>
public sealed record DoseAnswer
{
    private DoseAnswer(DoseAdvice? advice, string? refusal)
    {
        Advice = advice;
        Refusal = refusal;
    }

    /// <summary>What to add; null when refused.</summary>
    public DoseAdvice? Advice { get; }

    /// <summary>Why nothing is advised, in one sentence that says what was seen and what was wanted; null when there is advice.</summary>
    public string? Refusal { get; }

    /// <summary>True when there is no advice.</summary>
    [MemberNotNullWhen(true, nameof(Refusal))]
    [MemberNotNullWhen(false, nameof(Advice))]
    public bool IsRefused => Advice is null;

    internal static DoseAnswer Of(DoseAdvice advice) => new(advice, null);

    /// <summary>No advice, for a reason.</summary>
    public static DoseAnswer Refuse(string reason) => new(null, reason);
}
