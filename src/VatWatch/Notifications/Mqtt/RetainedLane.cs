using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Vats;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Brings alarm states and conditions to the broker, alarms first, QoS 1 and retained. A state that waits is replaced by a newer one of the
/// same alarm or vat; the last state of each always goes out. <c>Offer</c> is thread safe; one loop at a time.
/// </summary>
internal sealed class RetainedLane(MqttMessages messages, MqttTally tally, MqttTimings timings, TimeProvider time, ILogger log)
{
    private readonly LatestBook<(VatId, AlarmName), AlarmStatus> _alarms = new();
    private readonly LatestBook<VatId, VatCondition> _conditions = new();
    private readonly Wake _wake = new();
    private readonly HashSet<string> _refused = [];

    /// <summary>Enters an alarm's newest state. Never waits.</summary>
    public void Offer(AlarmStatus status)
    {
        _alarms.Enter((status.Vat, status.Alarm), status);
        _wake.Ring();
    }

    /// <summary>Enters a vat's newest condition. Never waits.</summary>
    public void Offer(VatCondition condition)
    {
        if (_conditions.Enter(condition.Vat, condition))
        {
            Interlocked.Increment(ref tally.ConditionsReplaced);
        }

        _wake.Ring();
    }

    /// <summary>Sends everything once, then what changes, until cancelled or until the connection breaks.</summary>
    public async Task RunAsync(MqttConnection connection, CancellationToken cancel)
    {
        _alarms.MarkAll();
        _conditions.MarkAll();
        while (true)
        {
            if (_alarms.TryTake(out var status))
            {
                await PublishAsync(connection, messages.Of(status), () => Interlocked.Increment(ref tally.AlarmsPublished), cancel);
            }
            else if (_conditions.TryTake(out var condition))
            {
                await PublishAsync(connection, messages.Of(condition), () => Interlocked.Increment(ref tally.ConditionsPublished), cancel);
            }
            else
            {
                await _wake.WaitAsync(timings.OutboxLook, time, cancel);
            }
        }
    }

    /// <summary>A state that the broker refuses is not tried again until it changes or the connection is made anew.</summary>
    private async Task PublishAsync(MqttConnection connection, MqttApplicationMessage message, Action count, CancellationToken cancel)
    {
        var result = await connection.PublishAsync(message, cancel);
        if (result.IsSuccess)
        {
            count();
            _refused.Remove(message.Topic);
            return;
        }

        Interlocked.Increment(ref tally.StatesRefused);
        if (_refused.Add(message.Topic))
        {
            log.StateRefused(message.Topic, result.ReasonCode.ToString());
        }
    }
}
