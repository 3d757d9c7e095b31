using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>pages-lost</c>: the pages cannot be served at their address; the watch goes on without them.</summary>
public static class PagesLostAlarm
{
    internal static AlarmKind Kind { get; } = new("pages-lost", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:30", "0:01:00", "0:30:00"))
    {
        Rationale = new(
            "Another program has the port, or the network that the address belongs to is not up.",
            "Nobody can look at the vat, and the bedside page is silent; alarms go to telephones all the same.",
            "Look at the vat itself. End the other program, or set web.listen to another port or address.",
            "before you rely on the pages"),
    };

    /// <summary>Whether the pages are served; <paramref name="trouble"/> is a sentence, null while they are.</summary>
    public static DaemonSignal Signal(string? trouble) => new(new(Kind.Word), trouble is not null, trouble ?? "The pages are served again.");
}
