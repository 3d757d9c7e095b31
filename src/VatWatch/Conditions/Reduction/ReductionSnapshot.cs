using VatWatch.Conditions.Liquor;

namespace VatWatch.Conditions.Reduction;

/// <summary>What is known of a vat's reduction and alkali at one moment; the clauses say why something is not.</summary>
internal sealed record ReductionSnapshot
{
    public double? Ph { get; init; }

    /// <summary>pH in the middle of the working band.</summary>
    public double? PhWhenWarm { get; init; }

    public string? NoPh { get; init; }

    public double? OrpMillivolts { get; init; }

    public string? NoOrp { get; init; }

    public Trend? Trend { get; init; }

    public RestingFrom? Resting { get; init; }

    public ReductionMargin? Margin { get; init; }

    public BaselineDistance? FromGoodDays { get; init; }

    public required IReadOnlyList<Recovery> Recoveries { get; init; }

    /// <summary>A slow rise that the electrode may make by itself.</summary>
    public Diagnosis? Drift { get; init; }

    public Diagnosis? RunningOut { get; init; }
}
