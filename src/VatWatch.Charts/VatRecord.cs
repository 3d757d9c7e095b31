using VatWatch.Alarms;
using VatWatch.Measurements;
using VatWatch.Vats;

namespace VatWatch.Charts;

/// <summary>What was recorded of one vat between two moments: all that a chart or report is drawn from.</summary>
/// <param name="Vat">The vat as configured.</param>
/// <param name="Units">The dyer's units.</param>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC.</param>
/// <param name="Measurements">In order of time.</param>
/// <param name="AlarmChanges">In order of time.</param>
public sealed record VatRecord(
    VatDefinition Vat,
    DisplayUnits Units,
    DateTimeOffset From,
    DateTimeOffset To,
    IReadOnlyList<Measurement> Measurements,
    IReadOnlyList<AlarmChange> AlarmChanges);
