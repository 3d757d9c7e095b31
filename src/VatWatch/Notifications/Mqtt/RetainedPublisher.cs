using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Brings alarm states and conditions to the broker, alarms first, QoS 1 and retained. A state that waits is replaced by a newer one of the
/// same alarm or vat; the last state of each always goes out. <c>Offer</c> is thread safe; one loop at a time.
/// </summary>
internal sealed class RetainedPublisher(MqttMessages messages, MqttTally tally, MqttTimings timings, TimeProvider time, ILogger log)
{
    private readonly LatestBook<(VatId, AlarmName), AlarmStatus> _alarms = new();
    private readonly LatestBook<VatId, VatCondition> _conditions = new();
    private readonly AsyncAutoResetEvent _wake = new();
    private readonly HashSet<string> _refused = [];

    /// <summary>Enters an alarm's newest state. Never waits.</summary>
    public void Enqueue(AlarmStatus status)
    {
        _alarms.Enter((status.Vat, status.Alarm), status);
        _wake.Set();
    }

    /// <summary>Enters a vat's newest condition. Never waits.</summary>
    public void Enqueue(VatCondition condition)
    {
        if (_conditions.Enter(condition.Vat, condition))
        {
            Interlocked.Increment(ref tally.ConditionsReplaced);
        }

        _wake.Set();
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
                await _wake.WaitAsync(timings.OutboxSnapshot, time, cancel);
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
