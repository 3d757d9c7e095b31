using System.Diagnostics.CodeAnalysis;
using VatWatch.Measurements;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Brings measurements to the broker, QoS 0 and retained. <see cref="Enqueue"/> is thread safe; one loop at a time.</summary>
internal sealed class MeasurementPublisher(MqttMessages messages, MqttCounters counters, MqttTimings timings, TimeProvider time)
{
    private readonly MeasurementQueue _queue = new(timings.MeasurementCapacity);
    private readonly AsyncAutoResetEvent _wake = new();

    /// <summary>Takes a measurement in; the oldest goes when the queue is full. Never waits.</summary>
    public void Enqueue(Measurement measurement)
    {
        if (_queue.Enqueue(measurement))
        {
            counters.MeasurementsDropped.Add();
        }

        _wake.Set();
    }

    /// <summary>Sends what waits, the newest of every probe included, until cancelled or until the connection breaks.</summary>
    public async Task RunAsync(MqttConnection connection, CancellationToken cancel)
    {
        _queue.MarkNewest();
        while (true)
        {
            if (_queue.TryTake(out var measurement))
            {
                await connection.PublishAsync(messages.Of(measurement), cancel);
                counters.MeasurementsPublished.Add();
            }
            else
            {
                await _wake.WaitAsync(timings.IdlePoll, time, cancel);
            }
        }
    }
}

/// <summary>
/// Measurements on their way out, oldest first. When it is full the oldest is dropped: the store has it. The newest of each probe is
/// remembered beside it for a broker that may have forgotten its retained messages. Thread safe.
/// </summary>
internal sealed class MeasurementQueue(int capacity)
{
    private readonly Lock _gate = new();
    private readonly Dictionary<ProbeId, Measurement> _newest = [];
    private Queue<Measurement> _waiting = new();

    /// <summary>Adds <paramref name="measurement"/>; true when another had to go for it.</summary>
    public bool Enqueue(Measurement measurement)
    {
        lock (_gate)
        {
            _newest[measurement.Probe] = measurement;
            _waiting.Enqueue(measurement);
            if (_waiting.Count <= capacity)
            {
                return false;
            }

            _waiting.Dequeue();
            return true;
        }
    }

    /// <summary>Takes the oldest.</summary>
    public bool TryTake([NotNullWhen(true)] out Measurement? measurement)
    {
        lock (_gate)
        {
            return _waiting.TryDequeue(out measurement);
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
            _waiting = new(_newest.Values.Where(measurement => !waiting.Contains(measurement.Probe)).Reverse().Concat(_waiting));
        }
    }
}
