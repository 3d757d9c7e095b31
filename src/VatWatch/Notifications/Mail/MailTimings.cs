namespace VatWatch.Notifications.Mail;

/// <summary>Every wait of a mail, with its reason. Tests shorten them; the configuration does not.</summary>
internal sealed record MailTimings
{
    /// <summary>
    /// One step with the server: connecting, TLS, the password, the message. RFC 5321 §4.5.3.2 lets a server take minutes; a night watch
    /// that has other messages to send does not wait that long.
    /// </summary>
    public TimeSpan Step { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>The chart. A mail goes without it rather than late.</summary>
    public TimeSpan Chart { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Taking leave of the server.</summary>
    public TimeSpan Leave { get; init; } = TimeSpan.FromSeconds(2);
}
