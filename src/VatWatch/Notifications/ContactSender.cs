using Microsoft.Extensions.Logging;

namespace VatWatch.Notifications;

/// <summary>
/// Brings one contact's outbox to its far side: one sentence at a time, in order, marked only once the far side has taken it, tried again with
/// growing waits, set aside when it is refused for good. <see cref="Ring"/> and <see cref="Health"/> are thread safe; one loop at a time.
/// </summary>
internal sealed class ContactSender(
    string contact, string way, IDelivery delivery, INotificationSource source, DeliveryTimings timings, TimeProvider time, ILogger log)
{
    private const int Batch = 32;
    private readonly AsyncAutoResetEvent _wake = new();
    private readonly Backoff _broken = new(timings.FirstRetry, timings.MostRetry, Random.Shared.NextDouble);
    private readonly Backoff _refused = new(timings.FirstRefusedRetry, timings.MostRefusedRetry, Random.Shared.NextDouble);

    /// <summary>Marks the row that the far side is done with, on a disk that refused until now. No other row is sent before, so at most this one is ever repeated.</summary>
    private Func<CancellationToken, Task>? _mark;
    private bool _outboxFailed;
    private long? _failingSince;
    private bool _lost;
    private string _reason = "";
    private long _delivered;
    private long _failed;
    private long _setAside;
    private volatile string? _trouble;

    /// <summary>The contact's id.</summary>
    public string Contact => contact;

    /// <summary>Word of the way.</summary>
    public string Way => way;

    /// <summary>How it does.</summary>
    public ContactHealth Health => new(Interlocked.Read(ref _delivered), Interlocked.Read(ref _failed), Interlocked.Read(ref _setAside), _trouble);

    /// <summary>Something waits in the outbox. Never waits.</summary>
    public void Ring() => _wake.Set();

    /// <summary>Delivers until cancelled.</summary>
    public async Task RunAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        try
        {
            while (true)
            {
                await DeliverWaitingAsync(pulse, cancel);
            }
        }
        finally
        {
            await delivery.DisposeAsync();
        }
    }

    private async Task DeliverWaitingAsync(Pulse? pulse, CancellationToken cancel)
    {
        pulse?.Tick();
        try
        {
            var refusal = await TryMarkAsync(cancel);
            var pending = await source.PendingAsync(Batch, cancel).WaitAsync(timings.OutboxTable, time, cancel);
            var sendable = refusal is null ? pending : [.. pending.Where(IsInMemory)];
            foreach (var notification in sendable)
            {
                pulse?.Tick();
                if (await TryAsync(notification, cancel) is { } wait)
                {
                    pulse?.Rest();
                    await Task.Delay(wait, time, cancel);
                    return;
                }
            }

            if (refusal is not null && sendable.Count == 0)
            {
                throw new IOException(refusal.Message, refusal);
            }

            if (pending.Count == 0)
            {
                OutboxWorks();
                await delivery.RestAsync();
                await _wake.WaitAsync(timings.OutboxSnapshot, time, cancel);
            }
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            OutboxFails(wrong);

            // Sentences that are told from memory because the disk refuses must not wait for the disk.
            await _wake.WaitAsync(timings.OutboxRetry, time, cancel);
        }
    }

    /// <summary>Null when the sentence is done with, otherwise how long to wait before the next try.</summary>
    private async Task<TimeSpan?> TryAsync(Notification notification, CancellationToken cancel)
    {
        var outcome = await SendAsync(notification, cancel);
        switch (outcome.Kind)
        {
            case DeliveryKind.Taken:
                Interlocked.Increment(ref _delivered);
                Works(outcome);
                await MarkAsync(notification, token => source.DeliveredAsync(notification.Id, token), cancel);
                return null;
            case DeliveryKind.Never:
                Interlocked.Increment(ref _setAside);
                log.SetAside(contact, notification.Id, outcome.Words);
                (_lost, _trouble) = (true, outcome.Words);
                await MarkAsync(notification, token => source.SetAsideAsync(notification.Id, outcome.Words, token), cancel);
                return null;
            default:
                return await FailsAsync(notification, outcome, cancel);
        }
    }

    private async Task<DeliveryOutcome> SendAsync(Notification notification, CancellationToken cancel)
    {
        using var limit = new CancellationTokenSource(timings.Try, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, cancel);
        try
        {
            return await delivery.SendAsync(notification, KeyOf(contact, notification), either.Token).WaitAsync(either.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return DeliveryOutcome.Later($"no answer within {timings.Try.TotalSeconds:0} s");
        }
    }

    private async Task<TimeSpan?> FailsAsync(Notification notification, DeliveryOutcome outcome, CancellationToken cancel)
    {
        Interlocked.Increment(ref _failed);
        var own = (outcome.NeedsPerson ? _refused : _broken).Next();
        var asked = outcome.Wait is { } wait ? wait < timings.MostAsked ? wait : timings.MostAsked : TimeSpan.Zero;
        var next = asked > own ? asked : own;
        if (_reason != outcome.Words)
        {
            _reason = outcome.Words;
            log.ContactFails(contact, outcome.Words, Math.Round(next.TotalSeconds, 1));
        }

        var since = _failingSince ??= time.GetTimestamp();
        _trouble = _lost || outcome.NeedsPerson || time.GetElapsedTime(since) >= timings.Patience ? outcome.Words : null;
        await source.FailedAsync(notification.Id, outcome.Words, cancel).WaitAsync(timings.OutboxTable, time, cancel);
        return next;
    }

    private async Task MarkAsync(Notification notification, Func<CancellationToken, Task> mark, CancellationToken cancel)
    {
        _mark = IsInMemory(notification) ? _mark : mark;
        await mark(cancel).WaitAsync(timings.OutboxTable, time, cancel);
        _mark = IsInMemory(notification) ? _mark : null;
    }

    /// <summary>Why the disk still does not take the mark that it owes us; null when it owes none.</summary>
    private async Task<Exception?> TryMarkAsync(CancellationToken cancel)
    {
        try
        {
            if (_mark is { } mark)
            {
                await mark(cancel).WaitAsync(timings.OutboxTable, time, cancel);
                _mark = null;
            }

            return null;
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            return wrong;
        }
    }

    private static bool IsInMemory(Notification notification) => notification.Id < 0;

    private void Works(DeliveryOutcome outcome)
    {
        if (_reason.Length > 0 || _lost)
        {
            log.ContactWorks(contact, outcome.Words);
        }

        (_reason, _failingSince, _lost, _trouble) = ("", null, false, null);
        _broken.Reset();
        _refused.Reset();
    }

    private void OutboxFails(Exception wrong)
    {
        if (!_outboxFailed)
        {
            log.ContactOutboxFailed(contact, wrong.GetBaseException().Message, timings.OutboxRetry.TotalSeconds);
        }

        _outboxFailed = true;
    }

    private void OutboxWorks()
    {
        if (_outboxFailed)
        {
            log.ContactOutboxWorks(contact);
        }

        _outboxFailed = false;
    }

    /// <summary>The same for every try of one sentence, also over a restart; the time keeps it apart from a row of a store begun anew.</summary>
    public static string KeyOf(string contact, Notification notification) =>
        $"{contact}-{notification.Id}-{notification.Created.ToUnixTimeMilliseconds()}";
}
