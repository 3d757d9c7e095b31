using VatWatch.Alarms;
using VatWatch.Probes;
using VatWatch.Vats;

namespace VatWatch.Pipeline.Configuration;

/// <summary>One vat with the plans of its probes, in the order of <see cref="VatDefinition.Probes"/>.</summary>
/// <param name="Definition">The vat.</param>
/// <param name="Probes">How to make each probe.</param>
/// <param name="Alarms">Settings of its alarms.</param>
public sealed record VatPlan(VatDefinition Definition, IReadOnlyList<IProbePlan> Probes, AlarmSettings Alarms);
