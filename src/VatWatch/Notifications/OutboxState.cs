namespace VatWatch.Notifications;

/// <summary>How one channel's queue stands.</summary>
/// <param name="Waiting">Sentences not delivered yet.</param>
/// <param name="Dropped">Sentences ever given up because the queue was full.</param>
/// <param name="OldestCreated">When the oldest waiting one was made, UTC; null when none waits.</param>
/// <param name="Attempts">Failed attempts to deliver the oldest.</param>
/// <param name="LastFailure">Why the last of them failed; null when none did.</param>
public sealed record OutboxState(int Waiting, long Dropped, DateTimeOffset? OldestCreated, int Attempts, string? LastFailure);
