using VatWatch.Conditions;

namespace VatWatch.Charts;

/// <summary>What a chart shows of a vat's condition at a moment, or from it on.</summary>
/// <param name="Utc">The moment.</param>
/// <param name="MarginMillivolts">Margin of reduction, mV; null when it is not known.</param>
/// <param name="Extrapolated">Whether the margin leaves what its sources vouch for.</param>
public readonly record struct VatSnapshot(DateTimeOffset Utc, VatState State, double? MarginMillivolts, bool Extrapolated);
