using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Says on the broker that the watch goes on, for a second VatWatch that listens. In the wall's time, since it is about the machine.</summary>
internal sealed class HeartbeatPublisher(Heartbeat heartbeat, MqttMessages messages, MqttTimings timings, TimeProvider time)
{
    /// <summary>Beats until cancelled or until the connection breaks (<see cref="BrokerLostException"/>).</summary>
    public async Task RunAsync(MqttConnection connection, CancellationToken cancel)
    {
        while (true)
        {
            if (heartbeat.IsWatching())
            {
                var beat = new HeartbeatDocument(
                    WallTime.Rfc3339(time.GetUtcNow()), (int)timings.Heartbeat.TotalSeconds, [.. heartbeat.Vats.Select(vat => vat.Value)]);
                await connection.PublishAsync(messages.Of(beat), cancel);
            }

            await Task.Delay(timings.Heartbeat, time, cancel);
        }
    }
}

/// <summary>What the heartbeat of a watch rests on.</summary>
/// <param name="IsWatching">Whether readings are being judged; while they are not there is no beat, however well the broker is reached. Thread safe.</param>
public sealed record Heartbeat(IReadOnlyList<VatId> Vats, Func<bool> IsWatching);

/// <summary>One beat of the watch: when, how many seconds until the next, and which vats are watched.</summary>
internal sealed record HeartbeatDocument(string Time, int Every, IReadOnlyList<string> Vats);
