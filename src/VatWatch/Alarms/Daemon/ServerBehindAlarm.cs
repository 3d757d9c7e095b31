using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>server-behind</c>: the copy on the database server lacks the newest readings.</summary>
public static class ServerBehindAlarm
{
    internal static AlarmKind Kind { get; } = new("server-behind", AlarmRuleSettings.Of(AlarmPriority.Medium, "0:00:00", "0:01:00", "6:00:00"))
    {
        Rationale = new(
            "The database server or the network is down, or the server refuses the token, the bucket or the points.",
            "The copy on the server lacks the newest readings; the store here keeps everything, and sends it when the server takes it again.",
            "Look at the server, its address and its token. Nothing about the vat depends on it.",
            "days, while the store keeps its readings"),
    };

    /// <summary>How the copy does; null for <paramref name="isBehind"/> keeps what stands.</summary>
    public static DaemonSignal Signal(bool? isBehind, string sentence) => new(new(Kind.Word), isBehind, sentence);
}
