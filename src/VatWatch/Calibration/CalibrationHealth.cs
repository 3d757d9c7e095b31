using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Calibration;

/// <summary>What a calibration says about its electrode: slope, offset, settling time, drift since the one before.</summary>
/// <param name="Findings">Everything that was looked at, in a fixed order.</param>
public sealed record CalibrationHealth(IReadOnlyList<CalibrationFinding> Findings)
{
    /// <summary>pH at which the drift of a pH electrode is told: that of a vat.</summary>
    public const double DriftAtPh = 10;

    /// <summary>The worst of all findings.</summary>
    public ElectrodeVerdict Verdict => Findings.Max(finding => finding.Verdict);

    /// <summary>The findings that are not good, the worst first.</summary>
    public IEnumerable<CalibrationFinding> Troubles =>
        Findings.Where(finding => finding.Verdict != ElectrodeVerdict.Good).OrderByDescending(finding => finding.Verdict);

    /// <summary>Judges a calibration.</summary>
    /// <param name="calibration">The new one, or the one in use.</param>
    /// <param name="before">The one before it; null for a first.</param>
    /// <param name="limits">What to hold it against.</param>
    public static CalibrationHealth Of(ElectrodeCalibration calibration, ElectrodeCalibration? before, CalibrationLimits limits)
    {
        var findings = new List<CalibrationFinding>();
        switch (calibration)
        {
            case PhCalibration ph:
                Judge(ph, limits.Ph, findings);
                break;
            case OrpCalibration orp:
                findings.Add(Offset(orp, limits));
                break;
        }

        if (calibration.Settling is { } settling)
        {
            findings.Add(new(
                Beyond(settling.TotalSeconds, limits.WarnSettling.TotalSeconds, limits.FailSettling.TotalSeconds),
                $"It took {DisplayUnits.Duration(settling)} to come to rest; good is up to {DisplayUnits.Duration(limits.WarnSettling)}, unfit beyond {DisplayUnits.Duration(limits.FailSettling)}."));
        }

        if (Drift(calibration, before) is { } drift)
        {
            findings.Add(Drifted(calibration, drift, limits));
        }

        return new CalibrationHealth(findings);
    }

    /// <summary>
    /// How much more the electrode showed just before this calibration than it shows now: pH at pH 10 at the new calibration's temperature, or
    /// mV. Null without a calibration of the same kind before.
    /// </summary>
    public static double? Drift(ElectrodeCalibration calibration, ElectrodeCalibration? before) => (calibration, before) switch
    {
        (PhCalibration now, PhCalibration then) =>
            then.ValueAt(now.Line.MillivoltsAt(DriftAtPh, now.TemperatureC), now.TemperatureC) - DriftAtPh,
        (OrpCalibration now, OrpCalibration then) => then.Offset.Millivolts - now.Offset.Millivolts,
        _ => null,
    };

    private static void Judge(PhCalibration ph, PhElectrodeLimits limits, List<CalibrationFinding> findings)
    {
        var onlyOffset = new PhElectrodeLimits(0, double.PositiveInfinity, 0, double.PositiveInfinity, limits.WornBeyondMillivolts, limits.UnfitBeyondMillivolts);
        var onlySlope = limits with { WornBeyondMillivolts = double.PositiveInfinity, UnfitBeyondMillivolts = double.PositiveInfinity };
        foreach (var line in ph.Lines)
        {
            findings.Add(new(onlySlope.Judge(line), $"Slope {line.SlopePercent:0.00} % of the ideal at {line.TemperatureC:0.#} °C; good is {limits.WornBelowPercent:0.#} to {limits.WornAbovePercent:0.#} %, unfit below {limits.UnfitBelowPercent:0.#} % or above {limits.UnfitAbovePercent:0.#} %."));
        }

        findings.Add(new(onlyOffset.Judge(ph.Line), $"Offset {ph.Line.OffsetMillivolts:0.0;−0.0} mV at pH 7; good is up to {limits.WornBeyondMillivolts:0.#} mV either way, unfit beyond {limits.UnfitBeyondMillivolts:0.#} mV."));
    }

    private static CalibrationFinding Offset(OrpCalibration orp, CalibrationLimits limits) => new(
        orp.Offset.Judge(limits.OrpWornBeyondMillivolts, limits.OrpUnfitBeyondMillivolts),
        $"Offset {orp.Offset.Millivolts:0.0;−0.0} mV; good is up to {limits.OrpWornBeyondMillivolts:0.#} mV either way, unfit beyond {limits.OrpUnfitBeyondMillivolts:0.#} mV.");

    private static CalibrationFinding Drifted(ElectrodeCalibration calibration, double drift, CalibrationLimits limits)
    {
        var figure = calibration.Quantity == Quantity.Ph
            ? $"pH {Math.Abs(drift):0.00} too {(drift > 0 ? "high" : "low")} at pH {DriftAtPh:0}; good is up to {limits.WarnDrift:0.##}, unfit beyond {limits.FailDrift:0.##}"
            : $"{Math.Abs(drift):0.0} mV too {(drift > 0 ? "high" : "low")}; good is up to {limits.WarnDrift:0.#} mV, unfit beyond {limits.FailDrift:0.#} mV";
        return new(Beyond(Math.Abs(drift), limits.WarnDrift, limits.FailDrift), $"Drift since the calibration before: it had come to read {figure}.");
    }

    private static ElectrodeVerdict Beyond(double value, double worn, double unfit) =>
        value <= worn ? ElectrodeVerdict.Good : value <= unfit ? ElectrodeVerdict.Worn : ElectrodeVerdict.Unfit;
}

/// <summary>One thing that was looked at in a calibration.</summary>
/// <param name="Sentence">In words, with the figure and the limit it was held against.</param>
public sealed record CalibrationFinding(ElectrodeVerdict Verdict, string Sentence);
