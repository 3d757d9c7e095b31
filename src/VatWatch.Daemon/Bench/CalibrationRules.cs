using VatWatch.Calibration;
using VatWatch.Pipeline.Configuration;

namespace VatWatch.Daemon.Bench;

/// <summary>The limits that hold for the calibrations of each probe. Immutable.</summary>
/// <param name="Vats">Vats as configured.</param>
internal sealed record CalibrationRules(IReadOnlyList<VatPlan> Vats)
{
    public CalibrationLimits Of(ProbeDefinition probe) =>
        Vats.FirstOrDefault(vat => vat.Definition.Id == probe.Vat)?.LimitsOf(probe) ?? CalibrationLimits.Default(probe.Quantity);
}
