using VatWatch.Science.Electrodes;
using VatWatch.Science.Electrodes.Ph;
using VatWatch.Vats.Configuration;

namespace VatWatch.Calibration;

/// <summary>
/// What a calibration of one probe must keep to: the optional key <c>calibration</c> of a pH or ORP probe. Past a <c>warn...</c> limit the
/// electrode is worn, past a <c>fail...</c> limit unfit. No primary standard gives such limits; see <see cref="PhElectrodeLimits"/> and
/// <see cref="OrpOffset"/> for where slope and offset come from. The others are our choice.
/// </summary>
public sealed record CalibrationLimits
{
    /// <summary>Limits of slope and offset of a pH electrode: 85, 95, 102 and 105 %, 20 and 60 mV.</summary>
    public PhElectrodeLimits Ph { get; init; } = new();

    /// <summary>Offset of an ORP probe, either sign, beyond which it is worn, mV. Default 15, 1 to 500.</summary>
    public double OrpWornBeyondMillivolts { get; init; } = OrpOffset.WornBeyondMillivolts;

    /// <summary>Offset of an ORP probe, either sign, beyond which it is unfit, mV. Default 50, 1 to 500.</summary>
    public double OrpUnfitBeyondMillivolts { get; init; } = OrpOffset.UnfitBeyondMillivolts;

    /// <summary>Age at which a calibration is due again. Default 30 d, 1 h to 1000 d.</summary>
    public TimeSpan MaxAge { get; init; } = TimeSpan.FromDays(30);

    /// <summary>Time to come to rest beyond which the electrode is worn. Default 60 s, 1 s to 1 h; a good one takes 10 to 30 s (a laboratory pH-meter guide, 1996).</summary>
    public TimeSpan WarnSettling { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Time to come to rest beyond which the electrode is unfit. Default 3 min, 1 s to 1 h.</summary>
    public TimeSpan FailSettling { get; init; } = TimeSpan.FromMinutes(3);

    /// <summary>Change since the calibration before, beyond which the electrode is worn: pH at pH 10, or mV. Default pH 0.3 or 15 mV.</summary>
    public double WarnDrift { get; init; } = PhDrift.Warn;

    /// <summary>Change since the calibration before, beyond which the electrode is unfit. Default pH 1 or 50 mV.</summary>
    public double FailDrift { get; init; } = PhDrift.Fail;

    /// <summary>What holds where the configuration is silent.</summary>
    public static CalibrationLimits Default(Quantity measures) =>
        measures == Quantity.Orp ? new() { WarnDrift = OrpDrift.Warn, FailDrift = OrpDrift.Fail } : new();

    /// <summary>Reads the section of a probe that measures pH or ORP; faults are filed.</summary>
    public static CalibrationLimits Read(ConfigNode node, Quantity measures)
    {
        var limits = Default(measures) with
        {
            MaxAge = node.Duration("maxAge", TimeSpan.FromHours(1), TimeSpan.FromDays(1000), TimeSpan.FromDays(30)),
        };
        limits = limits with
        {
            WarnSettling = node.Duration("warnSettling", Second, Hour, limits.WarnSettling),
            FailSettling = node.Duration("failSettling", Second, Hour, limits.FailSettling),
        };
        limits = measures == Quantity.Orp ? ReadOrp(node, limits) : ReadPh(node, limits);
        node.Done();
        InOrder(node, "failSettling", limits.FailSettling >= limits.WarnSettling, "at or above warnSettling");
        InOrder(node, "failDrift", limits.FailDrift >= limits.WarnDrift, "at or above warnDrift");
        return limits;
    }

    private static CalibrationLimits ReadPh(ConfigNode node, CalibrationLimits limits)
    {
        var (ph, slope) = (limits.Ph, QuantityKind.Percent);
        ph = new PhElectrodeLimits(
            node.Quantity("warnSlopeBelow", slope, 50, 100, ph.WornBelowPercent),
            node.Quantity("warnSlopeAbove", slope, 100, 150, ph.WornAbovePercent),
            node.Quantity("failSlopeBelow", slope, 50, 100, ph.UnfitBelowPercent),
            node.Quantity("failSlopeAbove", slope, 100, 150, ph.UnfitAbovePercent),
            node.Quantity("warnOffset", QuantityKind.Potential, 1, 500, ph.WornBeyondMillivolts),
            node.Quantity("failOffset", QuantityKind.Potential, 1, 500, ph.UnfitBeyondMillivolts));
        InOrder(node, "failSlopeBelow", ph.UnfitBelowPercent <= ph.WornBelowPercent, "at or below warnSlopeBelow");
        InOrder(node, "failSlopeAbove", ph.UnfitAbovePercent >= ph.WornAbovePercent, "at or above warnSlopeAbove");
        InOrder(node, "failOffset", ph.UnfitBeyondMillivolts >= ph.WornBeyondMillivolts, "at or above warnOffset");
        return limits with
        {
            Ph = ph,
            WarnDrift = node.Number("warnDrift", 0.01, 5, limits.WarnDrift),
            FailDrift = node.Number("failDrift", 0.01, 5, limits.FailDrift),
        };
    }

    private static CalibrationLimits ReadOrp(ConfigNode node, CalibrationLimits limits)
    {
        limits = limits with
        {
            OrpWornBeyondMillivolts = node.Quantity("warnOffset", QuantityKind.Potential, 1, 500, limits.OrpWornBeyondMillivolts),
            OrpUnfitBeyondMillivolts = node.Quantity("failOffset", QuantityKind.Potential, 1, 500, limits.OrpUnfitBeyondMillivolts),
            WarnDrift = node.Quantity("warnDrift", QuantityKind.Potential, 1, 500, limits.WarnDrift),
            FailDrift = node.Quantity("failDrift", QuantityKind.Potential, 1, 500, limits.FailDrift),
        };
        InOrder(node, "failOffset", limits.OrpUnfitBeyondMillivolts >= limits.OrpWornBeyondMillivolts, "at or above warnOffset");
        return limits;
    }

    private static void InOrder(ConfigNode node, string key, bool holds, string wanted)
    {
        if (!holds)
        {
            node.Faults.Add(node.PathOf(key), node.Shown(key), wanted);
        }
    }

    private static readonly TimeSpan Second = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);
    private static readonly (double Warn, double Fail) PhDrift = (0.3, 1.0);
    private static readonly (double Warn, double Fail) OrpDrift = (15, 50);
}
