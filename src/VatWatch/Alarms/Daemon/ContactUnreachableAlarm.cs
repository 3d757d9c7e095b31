using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>contact-unreachable.CONTACT</c>: a contact cannot be told of alarms.</summary>
internal static class ContactUnreachableAlarm
{
    public static AlarmKind Kind { get; } = new("contact-unreachable", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:00", "0:01:00", "0:30:00"))
    {
        Rationale = new(
            "The broker, the mail server or the web address of a contact refuses, does not confirm or does not answer, or its settings are wrong.",
            "That person is not told of alarms; messages wait here, and those refused for good are set aside.",
            "Tell that person yourself tonight. Try `vatwatch notify` with the contact, and look at its settings.",
            "before you rely on that contact"),
    };

    /// <summary>How a contact's way does; <paramref name="trouble"/> is a clause, null while it is well.</summary>
    public static DaemonSignal Signal(string contact, string? trouble) => trouble is not null
        ? new(new(Kind.Word, contact), true, $"Contact {contact} is not told of alarms: {trouble}.")
        : new(new(Kind.Word, contact), false, $"Contact {contact} is reached again.");
}
