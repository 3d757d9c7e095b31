using VatWatch.Calibration;

namespace VatWatch.Daemon.Web.Bench;

/// <summary>One electrode with its calibrations, as a page shows it.</summary>
/// <param name="History">Its calibrations, oldest first.</param>
/// <param name="Health">How the one in use was judged; null without one.</param>
/// <param name="Due">Whether a new one is due, in words.</param>
/// <param name="IsDue">Whether it is.</param>
/// <param name="Age">Age of the one in use; null without one.</param>
/// <param name="Limits">The limits it is held against.</param>
public sealed record ElectrodeView(
    VatDefinition Vat, ProbeDefinition Probe, IReadOnlyList<DatedCalibration> History, CalibrationHealth? Health, string Due, bool IsDue, TimeSpan? Age, CalibrationLimits Limits)
{
    public DatedCalibration? InUse => History is [.., var last] ? last : null;

    /// <summary>Address of its bench.</summary>
    public string Href => AddressOf(Probe);

    internal static string AddressOf(ProbeDefinition probe) => $"/calibration/{Uri.EscapeDataString(probe.Id.Value)}";

    /// <summary>Slope in per cent of the ideal, of pH electrodes, oldest first.</summary>
    public IReadOnlyList<(DateTimeOffset At, double Value)> Slopes =>
        [.. History.Where(one => one.Calibration is PhCalibration).Select(one => (one.Utc, ((PhCalibration)one.Calibration).Line.SlopePercent))];

    /// <summary>Offset in mV, oldest first.</summary>
    public IReadOnlyList<(DateTimeOffset At, double Value)> Offsets => [.. History.Select(one => (one.Utc, OffsetOf(one.Calibration)))];

    /// <summary>Offset limit beyond which it is unfit, mV.</summary>
    public double UnfitOffset => Probe.Quantity == Quantity.Orp ? Limits.OrpUnfitBeyondMillivolts : Limits.Ph.UnfitBeyondMillivolts;

    /// <summary>Offset of a calibration, mV.</summary>
    public static double OffsetOf(ElectrodeCalibration calibration) => calibration switch
    {
        PhCalibration ph => ph.Line.OffsetMillivolts,
        OrpCalibration orp => orp.Offset.Millivolts,
        _ => double.NaN,
    };

    /// <summary>Slope and offset in words.</summary>
    public static string Words(ElectrodeCalibration calibration) => calibration is PhCalibration ph
        ? $"slope {ph.Line.SlopePercent:0.0} %, offset {ph.Line.OffsetMillivolts:0.0;−0.0} mV"
        : $"offset {OffsetOf(calibration):0.0;−0.0} mV";

    internal static ElectrodeView Of(VatDefinition vat, ProbeDefinition probe, CalibrationCache calibrations, CalibrationLimits limits, DateTimeOffset now)
    {
        var due = CalibrationDue.Of(probe, calibrations, limits, now);
        var used = calibrations.InUse(probe.Id);
        return new(
            vat,
            probe,
            calibrations.Of(probe.Id),
            used is null ? null : CalibrationHealth.Of(used.Calibration, calibrations.Before(used)?.Calibration, limits),
            due?.Sentence ?? $"Probe {probe.Id} delivers finished millivolts; a calibration adds an offset to them.",
            due?.IsDue == true,
            used is null ? null : now - used.Utc,
            limits);
    }
}
