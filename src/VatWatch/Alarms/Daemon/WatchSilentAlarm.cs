using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>watch-silent.SITE</c>: another VatWatch that this one listens to has fallen silent.</summary>
internal static class WatchSilentAlarm
{
    public static AlarmKind Kind { get; } = new("watch-silent", AlarmRuleSettings.Of(AlarmPriority.Critical, "0:00:00", "0:00:30", "0:10:00"))
    {
        Rationale = new(
            "The other VatWatch has lost its power, its network or its broker, or its program has stopped.",
            "Nobody watches those vats, and a heater may be on.",
            "Go and look at the vats now; switch the heater off at the plug if you cannot.",
            "10 min while a heater may be on"),
    };

    /// <summary>The verdict on a site; null while it cannot be told.</summary>
    public static DaemonSignal Signal(string site, bool? isSilent, string sentence) => new(new(Kind.Word, site), isSilent, sentence);
}
