using VatWatch.Science.Electrodes;

namespace VatWatch.Calibration;

/// <summary>Whether a probe should be calibrated again.</summary>
/// <param name="IsDue">True when it should; null when only the clock could tell and it is not to be trusted.</param>
/// <param name="Sentence">Why, or that all is well; one sentence.</param>
public sealed record CalibrationDue(bool? IsDue, string Sentence)
{
    /// <summary>Judges one probe; null for one that needs no calibration and has none.</summary>
    /// <param name="now">UTC; null when the clock is not trusted.</param>
    public static CalibrationDue? Of(ProbeDefinition probe, CalibrationCache calibrations, CalibrationLimits limits, DateTimeOffset? now)
    {
        if (!Calibrator.CanCalibrate(probe))
        {
            return null;
        }

        if (calibrations.InUse(probe.Id) is not { } used)
        {
            return probe.Unit.IsElectrode ? new(true, $"Probe {probe.Id} was never calibrated; its values are those of an ideal electrode.") : null;
        }

        var health = CalibrationHealth.Of(used.Calibration, calibrations.Before(used)?.Calibration, limits);
        if (health.Verdict == ElectrodeVerdict.Unfit)
        {
            return new(true, $"Probe {probe.Id} is unfit by its last calibration: {health.Troubles.First().Sentence}");
        }

        if (now - used.Utc is not { } age)
        {
            return new(null, $"The age of the calibration of probe {probe.Id} is not known, because the clock is not to be trusted.");
        }

        return age > limits.MaxAge
            ? new(true, $"The calibration of probe {probe.Id} is {Days(age)} old; wanted a new one every {Days(limits.MaxAge)}.")
            : new(false, $"The calibration of probe {probe.Id} is in order.");
    }

    private static string Days(TimeSpan age) =>
        age.TotalDays >= 2 ? $"{Math.Floor(age.TotalDays):0} days" : DisplayUnits.Duration(age);
}
