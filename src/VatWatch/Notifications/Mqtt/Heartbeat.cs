namespace VatWatch.Notifications.Mqtt;

/// <summary>What the heartbeat of a watch rests on.</summary>
/// <param name="Vats">The vats that are watched.</param>
/// <param name="IsWatching">Whether readings are being judged; while they are not there is no beat, however well the broker is reached. Thread safe.</param>
public sealed record Heartbeat(IReadOnlyList<VatId> Vats, Func<bool> IsWatching);
