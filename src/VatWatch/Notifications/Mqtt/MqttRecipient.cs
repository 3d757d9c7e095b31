namespace VatWatch.Notifications.Mqtt;

/// <summary>Somebody who is told by topic.</summary>
/// <param name="Source">Their outbox.</param>
/// <param name="Own">Their own part of the topic; null for the common one, <c>{vat}/notification</c>.</param>
public sealed record MqttRecipient(INotificationSource Source, string? Own);
