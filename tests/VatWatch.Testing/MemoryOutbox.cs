using VatWatch.Notifications;

namespace VatWatch.Testing;

/// <summary>An outbox in memory that remembers what was done to it. Thread safe.</summary>
internal sealed class MemoryOutbox : INotificationSource
{
    private readonly List<Notification> _pending = [];
    private readonly List<long> _delivered = [];
    private readonly List<(long Id, string Reason)> _failed = [];
    private readonly List<(long Id, string Reason)> _setAside = [];

    /// <summary>Ids marked delivered, in the order of marking.</summary>
    public IReadOnlyList<long> Delivered => Locked(() => _delivered.ToList());

    /// <summary>Refusals filed.</summary>
    public IReadOnlyList<(long Id, string Reason)> Failed => Locked(() => _failed.ToList());

    /// <summary>What waits.</summary>
    public IReadOnlyList<Notification> Pending => Locked(() => _pending.ToList());

    /// <summary>When set, every call throws it.</summary>
    public Exception? Broken { get; set; }

    /// <summary>So many of the next <see cref="DeliveredAsync"/> calls fail.</summary>
    public int FailMarks { get; set; }

    /// <summary>Puts one in.</summary>
    public void Add(Notification notification) => Locked(() =>
    {
        _pending.Add(notification);
        return true;
    });

    public Task<IReadOnlyList<Notification>> PendingAsync(int max, CancellationToken cancel) =>
        Do<IReadOnlyList<Notification>>(() => _pending.OrderBy(notification => notification.Id).Take(max).ToList());

    public Task DeliveredAsync(long id, CancellationToken cancel) => FailMarks-- > 0 ? Task.FromException(new IOException("disk is full")) : Do(() =>
    {
        _delivered.Add(id);
        return _pending.RemoveAll(notification => notification.Id == id);
    });

    public Task FailedAsync(long id, string reason, CancellationToken cancel) => Do(() =>
    {
        _failed.Add((id, reason));
        return true;
    });

    /// <summary>Set aside for good, with the reason.</summary>
    public IReadOnlyList<(long Id, string Reason)> SetAside => Locked(() => _setAside.ToList());

    public Task DeadLetterAsync(long id, string reason, CancellationToken cancel) => Do(() =>
    {
        _setAside.Add((id, reason));
        return _pending.RemoveAll(notification => notification.Id == id);
    });

    private Task<T> Do<T>(Func<T> what) => Broken is { } broken ? Task.FromException<T>(broken) : Task.FromResult(Locked(what));

    private T Locked<T>(Func<T> what)
    {
        lock (_pending)
        {
            return what();
        }
    }
}
