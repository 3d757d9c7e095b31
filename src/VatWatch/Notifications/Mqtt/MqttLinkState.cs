namespace VatWatch.Notifications.Mqtt;

/// <summary>Whether the broker is there, as the <c>broker-lost</c> alarm and the health page see it.</summary>
/// <param name="Connected">True while notifications can go out.</param>
/// <param name="Reason">Why not, as a sentence for people; null while connected.</param>
public sealed record MqttLinkState(bool Connected, string? Reason);
