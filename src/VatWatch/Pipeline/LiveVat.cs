using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>The newest of everything about one vat, as one immutable picture.</summary>
/// <param name="Definition">The vat as configured.</param>
/// <param name="Latest">Newest measurement of each probe, in the order of the configuration; a probe that never spoke is absent.</param>
/// <param name="Condition">Newest condition.</param>
/// <param name="Alarms">Every alarm that is not in normal, weightiest and newest first.</param>
public sealed record LiveVat(VatDefinition Definition, IReadOnlyList<Measurement> Latest, VatCondition Condition, IReadOnlyList<AlarmStatus> Alarms);
