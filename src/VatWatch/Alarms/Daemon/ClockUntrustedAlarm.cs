using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>clock-untrusted</c>: the wall clock is not known to be right.</summary>
internal static class ClockUntrustedAlarm
{
    public static AlarmKind Kind { get; } = new("clock-untrusted", AlarmRuleSettings.Of(AlarmPriority.High, "0:05:00", "0:01:00", "6:00:00"))
    {
        Rationale = new(
            "The computer has no network time and no clock of its own that was set.",
            "Times on charts may be wrong; delays and alarms are not affected.",
            "Give the computer its network or set its clock.",
            "before the next session"),
    };

    /// <summary>Whether UTC is to be believed.</summary>
    public static DaemonSignal Signal(bool isTrusted) => isTrusted
        ? new(new(Kind.Word), false, "The clock is right again.")
        : new(new(Kind.Word), true, "The computer's clock is not known to be right; times on charts may be wrong.");
}
