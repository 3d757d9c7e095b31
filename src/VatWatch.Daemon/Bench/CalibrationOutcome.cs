using VatWatch.Calibration;
using VatWatch.Pipeline.Configuration;
using VatWatch.Science.Electrodes;

namespace VatWatch.Daemon.Bench;

/// <summary>What came of a calibration.</summary>
/// <param name="Calibration">What was found.</param>
/// <param name="Health">How it was judged.</param>
/// <param name="Row">Its row in the store; null when it was refused.</param>
internal sealed record CalibrationOutcome(ProbeDefinition Probe, ElectrodeCalibration Calibration, CalibrationHealth Health, DateTimeOffset Utc, long? Row)
{
    /// <summary>Judges a calibration and stores it, unless it is outside its limits and nobody said to keep it all the same.</summary>
    /// <param name="calibration">What was found.</param>
    /// <param name="before">The calibration in use.</param>
    /// <param name="limits">The limits that hold for the probe.</param>
    /// <param name="keep">Whether one outside the limits is stored all the same.</param>
    /// <param name="utc">Now, by the wall's clock.</param>
    /// <param name="add">Stores it and gives its row.</param>
    public static async Task<CalibrationOutcome> FileAsync(
        ProbeDefinition probe, ElectrodeCalibration calibration, ElectrodeCalibration? before, CalibrationLimits limits, bool keep, DateTimeOffset utc, Func<Task<long>> add)
    {
        var health = CalibrationHealth.Of(calibration, before, limits);
        var isRefused = health.Verdict == ElectrodeVerdict.Unfit && !keep;
        return new(probe, calibration, health, utc, isRefused ? null : await add());
    }

    /// <summary>Why it was not stored; null when it was.</summary>
    public string? Refusal => Row is null
        ? $"the calibration of probe '{Probe.Id}' is outside its limits and was not stored: {Health.Troubles.First().Sentence} Clean the electrode and use fresh solutions, or store it all the same"
        : null;
}

/// <summary>The limits that hold for the calibrations of each probe. Immutable.</summary>
internal sealed record CalibrationRules(IReadOnlyList<VatPlan> Vats)
{
    public CalibrationLimits Of(ProbeDefinition probe) =>
        Vats.FirstOrDefault(vat => vat.Definition.Id == probe.Vat)?.LimitsOf(probe) ?? CalibrationLimits.Default(probe.Quantity);
}
