using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts;

/// <summary>What was recorded of one vat between two moments: all that a chart or report is drawn from.</summary>
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
    IReadOnlyList<AlarmChange> AlarmChanges)
{
    /// <summary>The session that this is the record of; null for a stretch of time.</summary>
    public Session? Session { get; init; }

    /// <summary>What plans foretold of the session, and what came; null when nothing was planned.</summary>
    public PlanOutcome? Planned { get; init; }

    /// <summary>Entries of the log book, oldest first. Withdrawn ones are not shown and do not count.</summary>
    public IReadOnlyList<SessionEntry> Entries { get; init; } = [];

    /// <summary>Photographs for a report, oldest first (<see cref="Reports.ReportPhotos"/>).</summary>
    public IReadOnlyList<Reports.ReportPhoto> Photos { get; init; } = [];

    /// <summary>Conditions in order of time, as <see cref="Traces.ConditionTrace"/> works them out; empty when nobody did.</summary>
    public IReadOnlyList<VatCondition> Conditions { get; init; } = [];

    /// <summary>Calibrations that the measurements may name.</summary>
    public IReadOnlyList<DatedCalibration> Calibrations { get; init; } = [];

    /// <summary>
    /// Length of the columns that the measurements stand for, each by its first, lowest, highest and last value; null when they are the readings
    /// themselves.
    /// </summary>
    public TimeSpan? SummedUpBy { get; init; }

    /// <summary>With <see cref="SummedUpBy"/>, a look for each column, as far as conditions were kept.</summary>
    public IReadOnlyList<VatSnapshot> SummedUpLooks { get; init; } = [];

    /// <summary>What is known of states and margin within the record.</summary>
    internal IEnumerable<VatSnapshot> Looks => SummedUpBy is not null ? SummedUpLooks : Conditions
        .Where(condition => condition.Stamp.Utc >= From && condition.Stamp.Utc <= To)
        .Select(condition => new VatSnapshot(condition.Stamp.Utc, condition.State, condition.Margin?.Millivolts, condition.Margin?.Extrapolated == true));

    internal IEnumerable<SessionEntry> Standing => Entries.Where(entry => entry.Withdrawn is null);

    internal IReadOnlyList<Dip> Dips => SessionTally.Of(Entries).Dips;
}

/// <summary>What a chart shows of a vat's condition at a moment, or from it on.</summary>
/// <param name="Utc">The moment.</param>
/// <param name="MarginMillivolts">Margin of reduction, mV; null when it is not known.</param>
/// <param name="Extrapolated">Whether the margin leaves what its sources vouch for.</param>
public readonly record struct VatSnapshot(DateTimeOffset Utc, VatState State, double? MarginMillivolts, bool Extrapolated);
