namespace VatWatch.Notifications;

/// <summary>
/// The outbox as one way of delivery sees it: what still waits, oldest first, and what became of each. Rows stay pending until
/// <see cref="DeliveredAsync"/> has completed, so a kill between sending and marking repeats a notification and never loses one. Thread safe.
/// </summary>
public interface INotificationSource
{
    /// <summary>Up to <paramref name="max"/> undelivered notifications in the order in which they are to go out.</summary>
    Task<IReadOnlyList<Notification>> PendingAsync(int max, CancellationToken cancel);

    /// <summary>The far side has taken it. Completes when that is on disk.</summary>
    Task DeliveredAsync(long id, CancellationToken cancel);

    /// <summary>A try was refused; the notification stays pending. <paramref name="reason"/> is a clause for people.</summary>
    Task FailedAsync(long id, string reason, CancellationToken cancel);

    /// <summary>It can never be delivered and leaves the queue, with the reason. Completes when that is on disk.</summary>
    Task DeadLetterAsync(long id, string reason, CancellationToken cancel);
}
