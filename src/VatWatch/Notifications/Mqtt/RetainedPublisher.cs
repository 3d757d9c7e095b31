using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Brings alarm states and conditions to the broker, alarms first, QoS 1 and retained. A state that waits is replaced by a newer one of the
/// same alarm or vat; the last state of each always goes out. <c>Enqueue</c> is thread safe; one loop at a time.
/// </summary>
internal sealed class RetainedPublisher(MqttMessages messages, MqttCounters counters, MqttTimings timings, TimeProvider time, ILogger log)
{
    private readonly LatestValues<(VatId, AlarmName), AlarmStatus> _alarms = new();
    private readonly LatestValues<VatId, VatCondition> _conditions = new();
    private readonly AsyncAutoResetEvent _wake = new();
    private readonly HashSet<string> _refused = [];

    /// <summary>Takes an alarm's newest state in, and sends it on the caller's thread when nothing else is being sent. Never waits.</summary>
    public void Enqueue(AlarmStatus status)
    {
        _alarms.Set((status.Vat, status.Alarm), status);
        _wake.SetHere();
    }

    /// <summary>Takes a vat's newest condition in. Never waits.</summary>
    public void Enqueue(VatCondition condition)
    {
        if (_conditions.Set(condition.Vat, condition))
        {
            counters.ConditionsReplaced.Add();
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
                await PublishAsync(connection, messages.Of(status), () => counters.AlarmsPublished.Add(), cancel);
            }
            else if (_conditions.TryTake(out var condition))
            {
                await PublishAsync(connection, messages.Of(condition), () => counters.ConditionsPublished.Add(), cancel);
            }
            else
            {
                await _wake.WaitAsync(timings.IdlePoll, time, cancel);
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

        counters.StatesRefused.Add();
        if (_refused.Add(message.Topic))
        {
            log.StateRefused(message.Topic, BrokerText.Reason(result));
        }
    }
}

/// <summary>
/// The newest value for each key, and which of them are still to be sent. A newer value takes the place of one that waits; the last value
/// of every key is always sent. Bounded by the number of keys, which the configuration fixes. Thread safe.
/// </summary>
internal sealed class LatestValues<TKey, TValue>
    where TKey : notnull
    where TValue : class
{
    private readonly Lock _gate = new();
    private readonly Dictionary<TKey, TValue> _latest = [];
    private readonly HashSet<TKey> _waiting = [];
    private readonly Queue<TKey> _order = new();

    /// <summary>Takes <paramref name="value"/> in; true when it took the place of one that was never sent.</summary>
    public bool Set(TKey key, TValue value)
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
