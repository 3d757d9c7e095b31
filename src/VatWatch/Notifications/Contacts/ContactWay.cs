using VatWatch.Notifications.Webhook;

namespace VatWatch.Notifications.Contacts;

/// <summary>How a contact is reached.</summary>
public abstract record ContactWay
{
    private ContactWay()
    {
    }

    /// <summary>Word in the configuration.</summary>
    public abstract string Word { get; }

    /// <summary>By MQTT, on <c>{vat}/notification</c>, or on <c>{vat}/notification/{Own}</c>.</summary>
    /// <param name="Own">The contact's own part of the topic; null for the common one.</param>
    public sealed record Topic(string? Own) : ContactWay
    {
        public override string Word => "mqtt";
    }

    public sealed record Mail(string Address) : ContactWay
    {
        public override string Word => "mail";
    }

    /// <summary>By an HTTP POST.</summary>
    /// <param name="Options">Where to, and signed with what.</param>
    public sealed record Webhook(WebhookOptions Options) : ContactWay
    {
        public override string Word => "webhook";
    }
}
