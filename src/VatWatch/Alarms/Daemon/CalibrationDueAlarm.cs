using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>calibration-due.PROBE</c>: a calibration is too old, or an electrode out of its limits.</summary>
internal static class CalibrationDueAlarm
{
    public static AlarmKind Kind { get; } = new("calibration-due", AlarmRuleSettings.Of(AlarmPriority.Low, "0:00:00", "0:00:00", "1.00:00:00"))
    {
        Rationale = new(
            "The calibration is old, or its slope and offset have left the healthy range.",
            "The readings drift away from the truth unnoticed.",
            "Calibrate the probe with fresh buffers before the next session.",
            "this week"),
    };

    /// <summary>What the calibration of a probe says.</summary>
    public static DaemonSignal Signal(ProbeId probe, bool? isDue, string sentence) => new(new(Kind.Word, probe.Value), isDue, sentence);
}
