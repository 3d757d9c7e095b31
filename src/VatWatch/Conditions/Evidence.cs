using VatWatch.Conditions.Liquor;
using VatWatch.Conditions.Reduction;

namespace VatWatch.Conditions;

/// <summary>What is known about a vat at one moment; the clauses say why something is not.</summary>
internal sealed record Evidence(
    Stamp Now,
    double? TemperatureC,
    Trend? TemperatureTrend,
    double? Ph,
    double? OrpMillivolts,
    Trend? OrpTrend,
    string? NoTemperature,
    string? NoPh,
    string? NoOrp)
{
    /// <summary>pH in the middle of the working band.</summary>
    public double? PhWhenWarm { get; init; }

    /// <summary>A transient of ORP that is going on.</summary>
    public RestingFrom? Resting { get; init; }

    /// <summary>Whether ORP may have drifted up to where it is by the electrode's own doing.</summary>
    public bool IsDriftDoubted { get; init; }

    public ReductionMargin? Margin { get; init; }
}

/// <summary>A transient of ORP.</summary>
/// <param name="Since">How long it has lasted.</param>
/// <param name="FirstSince">The same from the first of several dips on, none of which the vat had come back from.</param>
/// <param name="BeforeMillivolts">ORP before it.</param>
/// <param name="IsRecovering">Whether ORP comes back from its peak.</param>
internal sealed record RestingFrom(TimeSpan Since, TimeSpan FirstSince, double BeforeMillivolts, bool IsRecovering);
