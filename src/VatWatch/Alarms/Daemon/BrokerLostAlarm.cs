using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>broker-lost</c>: the message broker cannot be reached or used.</summary>
internal static class BrokerLostAlarm
{
    public static AlarmKind Kind { get; } = new("broker-lost", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:30", "0:01:00", "0:30:00"))
    {
        Rationale = new(
            "The message broker or the network is down.",
            "Messages to phones wait here until it is back.",
            "Look at the vat's own page, and at the network and the broker. Do not rely on the phone tonight.",
            "before you rely on the phone"),
    };

    /// <summary>What the link to the broker says; <paramref name="trouble"/> is a sentence, null while it is connected.</summary>
    public static DaemonSignal Signal(string? trouble) => trouble is not null
        ? new(new(Kind.Word), true, $"The message broker is not there, phones hear nothing: {trouble}")
        : new(new(Kind.Word), false, "The message broker is there again.");
}
