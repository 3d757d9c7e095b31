using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Probes;

namespace VatWatch.Pipeline.Configuration;

/// <summary>One vat with the plans of its probes, in the order of <see cref="VatDefinition.Probes"/>.</summary>
public sealed record VatPlan(VatDefinition Definition, IReadOnlyList<ProbePlan> Probes, AlarmSettings Alarms)
{
    /// <summary>Limits of calibrations, of the probes whose configuration sets any.</summary>
    public IReadOnlyDictionary<ProbeId, CalibrationLimits> Calibrations { get; init; } = new Dictionary<ProbeId, CalibrationLimits>();

    /// <summary>The limits that hold for a probe's calibrations.</summary>
    public CalibrationLimits LimitsOf(ProbeDefinition probe) => Calibrations.GetValueOrDefault(probe.Id) ?? CalibrationLimits.Default(probe.Quantity);
}
