using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Science.Dosing;

/// <summary>A dose to weigh out, always an estimate: give the first portion, wait, look and measure again. Immutable; safe on any thread.</summary>
/// <param name="Substance">What to weigh, in the trade's word.</param>
/// <param name="Grams">The dose to work towards, g, above 0.</param>
/// <param name="LowGrams">The least it may turn out to be, g, 0 or more.</param>
/// <param name="HighGrams">The most to give before asking again, g.</param>
/// <param name="FirstPortionGrams">What to give now, g.</param>
/// <param name="Wait">How long to wait after each portion.</param>
/// <param name="Assumptions">What the figures rest on, a sentence each.</param>
/// <param name="Cautions">What to mind for safety and for the goods, a sentence each.</param>
public sealed record DoseAdvice(
    string Substance,
    double Grams,
    double LowGrams,
    double HighGrams,
    double FirstPortionGrams,
    DoseWait Wait,
    IReadOnlyList<string> Assumptions,
    IReadOnlyList<string> Cautions)
{
    /// <summary>What theory alone asks for, g, where the dose rests on the vat's own past ones or could; else null.</summary>
    public double? TheoryGrams { get; init; }

    /// <summary>Past doses of this vat that the figures rest on.</summary>
    public int PastDoses { get; init; }

    // A third of the dose, and at most 0.8 g for each litre: common practice, no source.
    private const double FirstShare = 1.0 / 3;
    private const double MostStepGramsPerLitre = 0.8;

    internal static double FirstPortion(double grams, double volumeL, double? learned = null) => Math.Min(learned ?? grams * FirstShare, MostStepGramsPerLitre * volumeL);
}

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

    [MemberNotNullWhen(true, nameof(Refusal))]
    [MemberNotNullWhen(false, nameof(Advice))]
    public bool IsRefused => Advice is null;

    internal static DoseAnswer Of(DoseAdvice advice) => new(advice, null);

    /// <summary>No advice, for a reason.</summary>
    public static DoseAnswer Refuse(string reason) => new(null, reason);
}

/// <summary>Minutes to wait after a portion before measuring again.</summary>
/// <param name="MostMinutes">The most that is of use.</param>
/// <param name="Minutes">What to set the clock to.</param>
public readonly record struct DoseWait(int LeastMinutes, int MostMinutes, int Minutes)
{
    /// <summary>Soda ash: until it is mixed in. Common practice, no source.</summary>
    public static DoseWait ForAlkali => new(10, 15, 15);

    /// <summary>Reducing agent: pauses of 20 and 30 min in Mairet (A Book on Vegetable Dyes, 1916), up to 40 min in craft practice.</summary>
    public static DoseWait ForReducer => new(20, 40, 30);
}
