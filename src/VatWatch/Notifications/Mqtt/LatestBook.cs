using System.Diagnostics.CodeAnalysis;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// The newest value for each key, and which of them are still to be sent. A newer value takes the place of one that waits; the last value
/// of every key is always sent. Bounded by the number of keys, which the configuration fixes. Thread safe.
/// </summary>
internal sealed class LatestBook<TKey, TValue>
    where TKey : notnull
    where TValue : class
{
    private readonly Lock _gate = new();
    private readonly Dictionary<TKey, TValue> _latest = [];
    private readonly HashSet<TKey> _waiting = [];
    private readonly Queue<TKey> _order = new();

    /// <summary>Enters <paramref name="value"/>; true when it took the place of one that was never sent.</summary>
    public bool Enter(TKey key, TValue value)
    {
        lock (_gate)
        {
            _latest[key] = value;
            return !Queue(key);
        }
    }

    /// <summary>Takes the value that has waited longest.</summary>
    public bool TryTake([NotNullWhen(true)] out TValue? value)
    {
        lock (_gate)
        {
            value = null;
            if (!_order.TryDequeue(out var key))
            {
                return false;
            }

            _waiting.Remove(key);
            value = _latest[key];
            return true;
        }
    }

    /// <summary>Has every value sent again, for a broker that may have forgotten them.</summary>
    public void MarkAll()
    {
        lock (_gate)
        {
            foreach (var key in _latest.Keys)
            {
                Queue(key);
            }
        }
    }

    private bool Queue(TKey key)
    {
        if (!_waiting.Add(key))
        {
            return false;
        }

        _order.Enqueue(key);
        return true;
    }
}
