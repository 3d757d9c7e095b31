using Microsoft.Extensions.Logging;
using MQTTnet;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Brings the outbox to the broker: one sentence at a time, in order within each vat, marked delivered only when the broker's
/// acknowledgement says so. The library sends nothing again after a reconnect and forgets what was under way, so what has no
/// acknowledgement is simply still pending; at most the one under way goes out twice. One loop at a time.
/// </summary>
internal sealed class NotificationLane(MqttRecipient recipient, MqttMessages messages, MqttTally tally, MqttTimings timings, TimeProvider time, ILogger log)
{
    private const int FirstBatch = 64;
    private const int LargestBatch = 4096;
    private readonly INotificationSource _source = recipient.Source;
    private readonly AsyncAutoResetEvent _wake = new();
    private readonly Dictionary<VatId, Held> _held = [];
    private int _batch = FirstBatch;
    private long? _unmarked;
    private bool _outboxFailed;
    private bool _unheard;

    /// <summary>Something waits in the outbox. Never waits.</summary>
    public void Ring() => _wake.Set();

    /// <summary>Delivers until cancelled or until the connection breaks (<see cref="BrokerLostException"/>).</summary>
    public async Task RunAsync(MqttConnection connection, CancellationToken cancel)
    {
        _held.Clear();
        while (true)
        {
            var wait = timings.OutboxSnapshot;
            try
            {
                if (await DeliverBatchAsync(connection, cancel))
                {
                    continue;
                }

                wait = UntilNextTry();
                OutboxWorks();
            }
            catch (Exception wrong) when (wrong is not BrokerLostException && !cancel.IsCancellationRequested)
            {
                OutboxFails(wrong);

                // Sentences that are told from memory because the disk refuses must not wait for the disk.
                await _wake.WaitAsync(timings.OutboxRetry, time, cancel);
                continue;
            }

            await _wake.WaitAsync(wait, time, cancel);
        }
    }

    /// <summary>True when something went out and there may be more.</summary>
    private async Task<bool> DeliverBatchAsync(MqttConnection connection, CancellationToken cancel)
    {
        var refusal = await TryMarkAsync(cancel);
        var pending = await _source.PendingAsync(_batch, cancel).WaitAsync(timings.Exchange, time, cancel);
        var delivered = false;
        foreach (var notification in pending)
        {
            if (!IsHeld(notification.Vat) && (refusal is null || IsInMemory(notification)))
            {
                delivered |= await TryDeliverAsync(connection, notification, cancel);
            }
        }

        if (refusal is not null && !delivered)
        {
            throw new IOException(refusal.Message, refusal);
        }

        // A whole batch of a vat that is held must not hide the sentences of another vat behind it.
        _batch = !delivered && pending.Count == _batch && _batch < LargestBatch ? _batch * 4 : FirstBatch;
        return delivered || _batch > FirstBatch;
    }

    private async Task<bool> TryDeliverAsync(MqttConnection connection, Notification notification, CancellationToken cancel)
    {
        var result = await connection.PublishAsync(Message(notification), cancel);
        if (result.IsSuccess)
        {
            _held.Remove(notification.Vat);
            Interlocked.Increment(ref tally.NotificationsDelivered);
            NoteHearers(result.ReasonCode, notification);
            if (IsInMemory(notification))
            {
                await _source.DeliveredAsync(notification.Id, cancel).WaitAsync(timings.Exchange, time, cancel);
                return true;
            }

            _unmarked = notification.Id;
            await MarkAsync(cancel);
            return true;
        }

        Interlocked.Increment(ref tally.NotificationsRefused);
        var reason = $"the broker refused it ({result.ReasonCode}{(result.ReasonString is { Length: > 0 } words ? $": {words}" : "")})";
        if (Hold(notification.Vat) == 1)
        {
            log.NotificationRefused(notification.Id, Message(notification).Topic, reason, timings.RefusedTries);
        }

        await _source.FailedAsync(notification.Id, reason, cancel).WaitAsync(timings.Exchange, time, cancel);
        return false;
    }

    /// <summary>Writes down what the broker has taken, before anything else is sent: a store that fails cannot make us repeat ourselves.</summary>
    private async Task MarkAsync(CancellationToken cancel)
    {
        if (_unmarked is { } id)
        {
            await _source.DeliveredAsync(id, cancel).WaitAsync(timings.Exchange, time, cancel);
            _unmarked = null;
        }
    }

    /// <summary>Why the disk still does not take a mark that it owes us; null when it owes none. Only what is told from memory goes out meanwhile.</summary>
    private async Task<Exception?> TryMarkAsync(CancellationToken cancel)
    {
        try
        {
            await MarkAsync(cancel);
            return null;
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            return wrong;
        }
    }

    private MqttApplicationMessage Message(Notification notification) => messages.Of(notification, recipient.Own);

    private static bool IsInMemory(Notification notification) => notification.Id < 0;

    private void NoteHearers(MqttClientPublishReasonCode reason, Notification notification)
    {
        var unheard = reason == MqttClientPublishReasonCode.NoMatchingSubscribers;
        if (unheard)
        {
            Interlocked.Increment(ref tally.NotificationsUnheard);
        }

        if (unheard && !_unheard)
        {
            log.NobodySubscribed(Message(notification).Topic);
        }

        _unheard = unheard;
    }

    private bool IsHeld(VatId vat) => _held.TryGetValue(vat, out var held) && time.GetElapsedTime(held.Since) < held.For;

    private int Hold(VatId vat)
    {
        var tries = _held.TryGetValue(vat, out var held) && held.Tries < timings.RefusedTries ? held.Tries + 1 : 1;
        var wait = tries < timings.RefusedTries ? timings.FirstRefusalWait * Math.Pow(2, tries - 1) : timings.RefusalRest;
        _held[vat] = new(tries, time.GetTimestamp(), wait);
        return tries;
    }

    private TimeSpan UntilNextTry()
    {
        var next = timings.OutboxSnapshot;
        foreach (var held in _held.Values)
        {
            var left = held.For - time.GetElapsedTime(held.Since);
            next = left < next ? left : next;
        }

        return next > TimeSpan.Zero ? next : TimeSpan.FromMilliseconds(1);
    }

    private void OutboxFails(Exception wrong)
    {
        if (!_outboxFailed)
        {
            log.OutboxFailed(wrong.GetBaseException().Message, timings.OutboxRetry.TotalSeconds);
        }

        _outboxFailed = true;
    }

    private void OutboxWorks()
    {
        if (_outboxFailed)
        {
            log.OutboxWorks();
        }

        _outboxFailed = false;
    }

    private sealed record Held(int Tries, long Since, TimeSpan For);
}
