using System.Diagnostics.CodeAnalysis;
using VatWatch.Measurements;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Measurements on their way out, oldest first. When it is full the oldest is dropped: the store has it. The newest of each probe is
/// remembered beside it for a broker that may have forgotten its retained messages. Thread safe.
/// </summary>
internal sealed class MeasurementQueue(int capacity)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<ProbeId, Measurement> _newest = [];
    private readonly LinkedList<Measurement> _waiting = new();

    /// <summary>Adds <paramref name="measurement"/>; true when another had to go for it.</summary>
    public bool Enter(Measurement measurement)
    {
        lock (_gate)
        {
            _newest[measurement.Probe] = measurement;
            _waiting.AddLast(measurement);
            if (_waiting.Count <= capacity)
            {
                return false;
            }

            _waiting.RemoveFirst();
            return true;
        }
    }

    /// <summary>Takes the oldest.</summary>
    public bool TryTake([NotNullWhen(true)] out Measurement? measurement)
    {
        lock (_gate)
        {
            measurement = _waiting.First?.Value;
            if (measurement is null)
            {
                return false;
            }

            _waiting.RemoveFirst();
            return true;
        }
    }

    /// <summary>
    /// Puts the newest of each probe that has nothing waiting before all others. A probe that has something waiting has its newest among
    /// it, since the oldest go first.
    /// </summary>
    public void MarkNewest()
    {
        lock (_gate)
        {
            var waiting = _waiting.Select(measurement => measurement.Probe).ToHashSet();
            foreach (var measurement in _newest.Values.Where(measurement => !waiting.Contains(measurement.Probe)))
            {
                _waiting.AddFirst(measurement);
            }
        }
    }
}
