namespace VatWatch.Notifications.Webhook;

/// <summary>Every bound of a webhook, with its reason. Tests shorten them; the configuration does not.</summary>
internal sealed record WebhookTimings
{
    /// <summary>Reaching the machine, TLS included.</summary>
    public TimeSpan Connect { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>One request until its answer. A receiver that works longer than this should take first and work then.</summary>
    public TimeSpan Request { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>Bytes of an answer that are read, for a person who tests; the rest is left.</summary>
    public int AnswerBytes { get; init; } = 2048;
}
