using VatWatch.Notifications;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>
/// What is waiting to be told: the outbox on the disk, and behind it the few notifications that had to be told while the disk refused.
/// Thread safe.
/// </summary>
internal sealed class NotificationDesk(WatchStore store, string channel, TimeProvider time) : INotificationSource
{
    /// <summary>As many as may be told from memory; the flood limit keeps a dead disk far below it.</summary>
    private const int MemoryBound = 1000;

    private readonly Lock _lock = new();
    private readonly Queue<Notification> _inMemory = new();
    private long _lastMemoryId;
    private long _dropped;

    /// <summary>Notifications lost because the disk was away for too long.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    /// <summary>Keeps notifications that could not be put on the disk; ids below zero tell them from rows.</summary>
    public void KeepInMemory(IEnumerable<Notification> notifications)
    {
        lock (_lock)
        {
            foreach (var notification in notifications)
            {
                if (_inMemory.Count >= MemoryBound)
                {
                    _inMemory.Dequeue();
                    _dropped++;
                }

                _inMemory.Enqueue(notification with { Id = --_lastMemoryId });
            }
        }
    }

    /// <inheritdoc/>
    public Task<IReadOnlyList<Notification>> PendingAsync(int max, CancellationToken cancel)
    {
        IReadOnlyList<Notification> kept;
        lock (_lock)
        {
            kept = [.. _inMemory.Take(max)];
        }

        if (kept.Count > 0)
        {
            return Task.FromResult(kept);
        }

        using var reader = store.OpenReader();
        return Task.FromResult(Outbox.Pending(reader, channel, max));
    }

    /// <inheritdoc/>
    public async Task DeliveredAsync(long id, CancellationToken cancel)
    {
        if (!Forget(id))
        {
            await store.WriteAsync(
                work =>
                {
                    Outbox.MarkDelivered(work, id, time.GetUtcNow());
                    return id;
                },
                cancel);
        }
    }

    /// <inheritdoc/>
    public async Task FailedAsync(long id, string reason, CancellationToken cancel)
    {
        if (id >= 0)
        {
            await store.WriteAsync(
                work =>
                {
                    Outbox.MarkFailed(work, id, reason);
                    return id;
                },
                cancel);
        }
    }

    /// <inheritdoc/>
    public async Task SetAsideAsync(long id, string reason, CancellationToken cancel)
    {
        if (!Forget(id))
        {
            await store.WriteAsync(
                work =>
                {
                    Outbox.MarkSetAside(work, id, reason, time.GetUtcNow());
                    return id;
                },
                cancel);
        }
    }

    private bool Forget(long id)
    {
        if (id >= 0)
        {
            return false;
        }

        lock (_lock)
        {
            var rest = _inMemory.Where(notification => notification.Id != id).ToList();
            _inMemory.Clear();
            rest.ForEach(_inMemory.Enqueue);
        }

        return true;
    }
}
