namespace VatWatch.Notifications.Mqtt;

/// <summary>The answer to a command that named a response topic.</summary>
/// <param name="Accepted">Whether the command was carried out.</param>
/// <param name="Reason">A sentence why not; null when it was.</param>
internal sealed record CommandReply(bool Accepted, string? Reason);
