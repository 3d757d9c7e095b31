namespace VatWatch.Store.Writing;

/// <summary>Remembers how commits go, for <see cref="StoreHealth"/> and for logging each change once. Written by one thread, read by any.</summary>
internal sealed class CommitHistory(TimeProvider time, TimeSpan patience)
{
    private readonly Lock _gate = new();
    private DateTimeOffset? _failingSince;
    private string? _reason;
    private DateTimeOffset? _lastCommit;
    private DateTimeOffset? _begun;
    private bool _dropping;

    /// <summary>A commit begins.</summary>
    public void Begin()
    {
        lock (_gate)
        {
            _begun = time.GetUtcNow();
        }
    }

    /// <summary>The commit reached the disk; how long commits had failed, when they had.</summary>
    public TimeSpan? Succeeded()
    {
        lock (_gate)
        {
            var now = time.GetUtcNow();
            var outage = now - _failingSince;
            (_lastCommit, _failingSince, _reason, _dropping, _begun) = (now, null, null, false, null);
            return outage;
        }
    }

    /// <summary>The commit failed; true when that is news.</summary>
    public bool Failed(string reason)
    {
        lock (_gate)
        {
            var isNews = _failingSince is null || _reason != reason;
            _failingSince ??= time.GetUtcNow();
            (_reason, _begun) = (reason, null);
            return isNews;
        }
    }

    /// <summary>A reading was dropped; true when that is news since the last good commit.</summary>
    public bool DroppingBegan()
    {
        lock (_gate)
        {
            return !_dropping && (_dropping = true);
        }
    }

    /// <summary>The picture now. A commit that does not come back counts as failing once the patience is over.</summary>
    public StoreHealth Health(MeasurementBuffer buffer, string? quarantined)
    {
        lock (_gate)
        {
            var stuck = _begun is { } begun && time.GetUtcNow() - begun > patience ? begun : (DateTimeOffset?)null;
            var reason = _reason ?? (stuck is null ? null : "the disk has not answered a commit yet");
            return new(_failingSince ?? stuck, reason, buffer.Count, buffer.Dropped, _lastCommit, quarantined);
        }
    }
}
