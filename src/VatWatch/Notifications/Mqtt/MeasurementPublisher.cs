using VatWatch.Measurements;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Brings measurements to the broker, QoS 0 and retained. <see cref="Enqueue"/> is thread safe; one loop at a time.</summary>
internal sealed class MeasurementPublisher(MqttMessages messages, MqttTally tally, MqttTimings timings, TimeProvider time)
{
    private readonly MeasurementQueue _queue = new(timings.MeasurementCapacity);
    private readonly AsyncAutoResetEvent _wake = new();

    /// <summary>Enters a measurement; the oldest goes when the queue is full. Never waits.</summary>
    public void Enqueue(Measurement measurement)
    {
        if (_queue.Enter(measurement))
        {
            Interlocked.Increment(ref tally.MeasurementsDropped);
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
                Interlocked.Increment(ref tally.MeasurementsPublished);
            }
            else
            {
                await _wake.WaitAsync(timings.OutboxSnapshot, time, cancel);
            }
        }
    }
}
