using VatWatch.Notifications;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>
/// What waits to go out: the outbox on the disk, and before it the few notifications that have to go out while the disk refuses.
/// Thread safe.
/// </summary>
internal sealed class OutboxQueue : INotificationSource
{
    /// <summary>As many as are kept in memory; the flood limit keeps a dead disk far below it.</summary>
    private const int MemoryBound = 1000;

    private readonly WatchStore _store;
    private readonly TimeProvider _time;
    private readonly Func<int, Task<IReadOnlyList<Notification>>> _read;
    private readonly Lock _lock = new();
    private readonly Queue<Notification> _inMemory = new();
    private readonly Queue<Notification> _sentFromMemory = new();
    private TaskCompletionSource _kept = NewSignal();
    private Task<IReadOnlyList<Notification>> _reading = Task.FromResult<IReadOnlyList<Notification>>([]);
    private long _lastMemoryId;
    private long _dropped;

    public OutboxQueue(WatchStore store, string channel, TimeProvider time)
        : this(store, time, max => ReadPendingAsync(store, channel, max))
    {
    }

    /// <summary>With another way to read the outbox.</summary>
    public OutboxQueue(WatchStore store, TimeProvider time, Func<int, Task<IReadOnlyList<Notification>>> read) => (_store, _time, _read) = (store, time, read);

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

            _kept.TrySetResult();
        }
    }

    public async Task<IReadOnlyList<Notification>> PendingAsync(int max, CancellationToken cancel)
    {
        while (true)
        {
            Task<IReadOnlyList<Notification>> reading;
            Task kept;
            lock (_lock)
            {
                if (_inMemory.Count > 0)
                {
                    return [.. _inMemory.Take(max)];
                }

                _kept = NewSignal();
                kept = _kept.Task;

                // A disk that hangs keeps whoever reads it: never the sender, and never more than one.
                if (_reading.IsCompleted)
                {
                    _reading = _read(max);
                }

                reading = _reading;
            }

            if (await Task.WhenAny(reading, kept).WaitAsync(cancel) == kept)
            {
                continue;
            }

            var rows = await reading;
            var sent = rows.Where(WasSent).ToList();
            foreach (var row in sent)
            {
                await DeliveredAsync(row.Id, cancel);
            }

            if (sent.Count == 0 || sent.Count < rows.Count)
            {
                return [.. rows.Except(sent)];
            }
        }
    }

    private static TaskCompletionSource NewSignal() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Through the writer, which has the file open: a new connection reads the whole schema first, and the phone waits for it. Where the disk takes nothing, it can still be read.</summary>
    private static async Task<IReadOnlyList<Notification>> ReadPendingAsync(WatchStore store, string channel, int max)
    {
        try
        {
            return await store.WriteAsync(work => OutboxTable.Pending(work, channel, max), CancellationToken.None);
        }
        catch (StoreUnavailableException)
        {
            return await Task.Run(() =>
            {
                using var reader = store.OpenReader();
                return OutboxTable.Pending(reader, channel, max);
            });
        }
    }

    /// <summary>Whether it was sent from memory: a disk that hung may have taken it after all, once it had been given up.</summary>
    private bool WasSent(Notification row)
    {
        lock (_lock)
        {
            return _sentFromMemory.Any(sent => (sent.Vat, sent.Alarm, sent.Created, sent.Sentence) == (row.Vat, row.Alarm, row.Created, row.Sentence));
        }
    }

    public async Task DeliveredAsync(long id, CancellationToken cancel)
    {
        if (!Forget(id))
        {
            await _store.WriteAsync(work => OutboxTable.MarkDelivered(work, id, _time.GetUtcNow()), cancel);
        }
    }

    public async Task FailedAsync(long id, string reason, CancellationToken cancel)
    {
        if (id >= 0)
        {
            await _store.WriteAsync(work => OutboxTable.MarkFailed(work, id, reason), cancel);
        }
    }

    public async Task DeadLetterAsync(long id, string reason, CancellationToken cancel)
    {
        if (!Forget(id))
        {
            await _store.WriteAsync(work => OutboxTable.MarkDeadLettered(work, id, reason, _time.GetUtcNow()), cancel);
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
            foreach (var sent in _inMemory.Where(notification => notification.Id == id))
            {
                _sentFromMemory.Enqueue(sent);
            }

            while (_sentFromMemory.Count > MemoryBound)
            {
                _sentFromMemory.Dequeue();
            }

            var rest = _inMemory.Where(notification => notification.Id != id).ToList();
            _inMemory.Clear();
            rest.ForEach(_inMemory.Enqueue);
        }

        return true;
    }
}
