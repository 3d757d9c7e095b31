namespace VatWatch.Notifications.Mqtt;

/// <summary>One beat of the watch: when, how many seconds until the next, and which vats are watched.</summary>
internal sealed record HeartbeatDocument(string Time, int Every, IReadOnlyList<string> Vats);
