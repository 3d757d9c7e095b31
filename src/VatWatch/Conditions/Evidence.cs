using VatWatch.Time;

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
    string? NoOrp);
