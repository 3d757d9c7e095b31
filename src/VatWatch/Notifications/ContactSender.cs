using Microsoft.Extensions.Logging;

namespace VatWatch.Notifications;

/// <summary>
/// Brings one contact's outbox to its far side: one notification at a time, in order, marked only once the far side has taken it, tried again
/// with growing waits, dead-lettered when it is refused for good. <see cref="Wake"/> and <see cref="Health"/> are thread safe; one loop at a time.
/// </summary>
internal sealed class ContactSender
{
    private const int Batch = 32;
    private readonly IDelivery _delivery;
    private readonly INotificationSource _outbox;
    private readonly DeliveryTimings _timings;
    private readonly TimeProvider _time;
    private readonly ILogger _log;
    private readonly AsyncAutoResetEvent _wake = new();
    private readonly Backoff _broken;
    private readonly Backoff _refused;
    private readonly RefusedVats _refusedVats;

    /// <summary>
    /// Marks the row that the far side is done with, on a disk that refused until now. No other row is sent before, so at most this one is ever
    /// repeated.
    /// </summary>
    private Func<CancellationToken, Task>? _mark;
    private volatile bool _reconnected;
    private bool _outboxFailed;
    private volatile Failing? _failing;
    private long? _cutOffSince;
    private int _cutOffs;
    private bool _isRefusing;
    private string _reason = "";
    private string? _ownTrouble;
    private long _delivered;
    private long _failed;
    private long _deadLettered;
    private volatile string? _trouble;

    /// <summary>Opens nothing yet.</summary>
    public ContactSender(string contact, string way, IDelivery delivery, INotificationSource outbox, DeliveryTimings timings, TimeProvider time, ILogger log)
    {
        (Contact, Way, _delivery, _outbox, _timings, _time, _log) = (contact, way, delivery, outbox, timings, time, log);
        _broken = new(timings.FirstRetry, timings.MostRetry, Random.Shared.NextDouble);
        _refused = new(timings.FirstRefusedRetry, timings.MostRefusedRetry, Random.Shared.NextDouble);
        _refusedVats = new(timings, time);
        delivery.Reconnected += () =>
        {
            _reconnected = true;
            Wake();
        };
    }

    /// <summary>The contact's id.</summary>
    public string Contact { get; }

    /// <summary>Word of the way.</summary>
    public string Way { get; }

    public ContactHealth Health => new(Interlocked.Read(ref _delivered), Interlocked.Read(ref _failed), Interlocked.Read(ref _deadLettered), _trouble ?? OverdueWords());

    /// <summary>Something waits in the outbox. Never waits.</summary>
    public void Wake() => _wake.Set();

    /// <summary>Delivers until cancelled.</summary>
    public async Task RunAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        try
        {
            while (true)
            {
                pulse?.Rest();
                await _delivery.ReadyAsync(cancel);
                pulse?.Tick();
                await DeliverWaitingAsync(pulse, cancel);
            }
        }
        finally
        {
            await _delivery.DisposeAsync();
        }
    }

    private async Task DeliverWaitingAsync(Pulse? pulse, CancellationToken cancel)
    {
        try
        {
            var unmarked = await TryMarkAsync(cancel);
            var pending = await PendingAsync(cancel);
            var sendable = pending.Where(notification => !_refusedVats.Waits(notification.Vat) && (unmarked is null || IsInMemory(notification))).ToList();
            foreach (var notification in sendable.Where(notification => !_refusedVats.Waits(notification.Vat)))
            {
                pulse?.Tick();
                if (await TryAsync(notification, cancel) is { } wait)
                {
                    pulse?.Rest();
                    await Task.Delay(wait, _time, cancel);
                    return;
                }
            }

            if (unmarked is not null && sendable.Count == 0)
            {
                throw new IOException(unmarked.Message, unmarked);
            }

            if (sendable.Count == 0)
            {
                await RestAsync(pending.Count == 0, pulse, cancel);
            }
        }
        catch (Exception wrong) when (!cancel.IsCancellationRequested)
        {
            OutboxFails(wrong);

            // Notifications that are kept in memory because the disk refuses must not wait for the disk.
            await _wake.WaitAsync(_timings.OutboxRetry, _time, cancel);
        }
    }

    /// <summary>What waits; all of it while vats are refused, so that theirs hide none of another vat.</summary>
    private async Task<IReadOnlyList<Notification>> PendingAsync(CancellationToken cancel)
    {
        if (_reconnected)
        {
            _reconnected = false;
            _refusedVats.RetryAll();
        }

        var isWhole = _refusedVats.Reason is not null;
        var pending = await _outbox.PendingAsync(isWhole ? OutboxTable.Cap : Batch, cancel).WaitAsync(_timings.OutboxTable, _time, cancel);
        if (isWhole && pending.All(notification => !IsInMemory(notification)))
        {
            _refusedVats.KeepOnly(pending.Select(notification => notification.Vat));
            ShowTrouble();
        }

        return pending;
    }

    private async Task RestAsync(bool isEmpty, Pulse? pulse, CancellationToken cancel)
    {
        OutboxWorks();
        if (isEmpty)
        {
            _failing = null;
            await _delivery.RestAsync();
        }

        pulse?.Rest();
        await _wake.WaitAsync(_refusedVats.UntilNextTry(_timings.OutboxPoll), _time, cancel);
    }

    /// <summary>Null when it is done with or its vat waits, otherwise how long to wait before the next try of anything.</summary>
    private async Task<TimeSpan?> TryAsync(Notification notification, CancellationToken cancel)
    {
        var begun = _time.GetTimestamp();
        _failing ??= new(begun, "no answer yet");
        var outcome = await SendAsync(notification, cancel);
        switch (outcome.Kind)
        {
            case DeliveryKind.Taken:
                Interlocked.Increment(ref _delivered);
                Works(notification, outcome);
                await MarkAsync(notification, token => _outbox.DeliveredAsync(notification.Id, token), cancel);
                return null;
            case DeliveryKind.Never:
                Interlocked.Increment(ref _deadLettered);
                _log.DeadLettered(Contact, notification.Id, outcome.Words);
                (_failing, _isRefusing, _ownTrouble) = (null, true, outcome.Words);
                ShowTrouble();
                await MarkAsync(notification, token => _outbox.DeadLetterAsync(notification.Id, outcome.Words, token), cancel);
                return null;
            case DeliveryKind.CutOff:
                NoteCutOff(begun, outcome);
                return TimeSpan.Zero;
            default:
                return await FailsAsync(notification, outcome, cancel);
        }
    }

    private async Task<DeliveryOutcome> SendAsync(Notification notification, CancellationToken cancel)
    {
        using var limit = new Deadline(_timings.Try, _time, cancel);
        try
        {
            return await _delivery.SendAsync(notification, KeyOf(Contact, notification), limit.Token).WaitAsync(limit.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return DeliveryOutcome.Later($"no answer within {_timings.Try.TotalSeconds:0} s");
        }
    }

    private async Task<TimeSpan?> FailsAsync(Notification notification, DeliveryOutcome outcome, CancellationToken cancel)
    {
        Interlocked.Increment(ref _failed);
        TimeSpan? wait = null;
        if (outcome.IsOfVatAlone)
        {
            _failing = null;
            RefuseVat(notification.Vat, outcome);
        }
        else
        {
            wait = NextTry(outcome);
        }

        ShowTrouble();
        await _outbox.FailedAsync(notification.Id, outcome.Words, cancel).WaitAsync(_timings.OutboxTable, _time, cancel);
        return wait;
    }

    private void RefuseVat(VatId vat, DeliveryOutcome outcome)
    {
        var (wait, isNew) = _refusedVats.Add(vat, outcome.Words);
        if (isNew)
        {
            _log.ContactFails(Contact, outcome.Words, Math.Round(wait.TotalSeconds, 1));
        }
    }

    /// <summary>One connection that goes away tells of itself. Connections that go away under every try are trouble, however soon there is another.</summary>
    private void NoteCutOff(long begun, DeliveryOutcome outcome)
    {
        _cutOffs++;
        var since = _cutOffSince ??= begun;
        _failing = null;
        if (_cutOffs >= _timings.CutOffs && _time.GetElapsedTime(since) >= _timings.CutOffPatience)
        {
            _ownTrouble = outcome.Words;
            ShowTrouble();
        }
    }

    private TimeSpan NextTry(DeliveryOutcome outcome)
    {
        var own = (outcome.NeedsPerson ? _refused : _broken).Next();
        var asked = outcome.Wait is { } wait ? wait < _timings.MostAsked ? wait : _timings.MostAsked : TimeSpan.Zero;
        var next = asked > own ? asked : own;
        if (_reason != outcome.Words)
        {
            _reason = outcome.Words;
            _log.ContactFails(Contact, outcome.Words, Math.Round(next.TotalSeconds, 1));
        }

        _failing = _failing! with { Words = outcome.Words };
        _ownTrouble = _isRefusing || outcome.NeedsPerson ? outcome.Words : null;
        return next;
    }

    private async Task MarkAsync(Notification notification, Func<CancellationToken, Task> mark, CancellationToken cancel)
    {
        _mark = IsInMemory(notification) ? _mark : mark;
        await mark(cancel).WaitAsync(_timings.OutboxTable, _time, cancel);
        _mark = IsInMemory(notification) ? _mark : null;
    }

    /// <summary>Why the disk still does not take the mark that it owes us; null when it owes none.</summary>
    private async Task<Exception?> TryMarkAsync(CancellationToken cancel)
    {
        try
        {
            if (_mark is { } mark)
            {
                await mark(cancel).WaitAsync(_timings.OutboxTable, _time, cancel);
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

    private void Works(Notification notification, DeliveryOutcome outcome)
    {
        if (_refusedVats.Remove(notification.Vat) || _reason.Length > 0 || _isRefusing)
        {
            _log.ContactWorks(Contact, outcome.Words);
        }

        (_reason, _failing, _cutOffSince, _cutOffs, _isRefusing, _ownTrouble) = ("", null, null, 0, false, null);
        _broken.Reset();
        _refused.Reset();
        ShowTrouble();
    }

    /// <summary>Why nothing has got through for longer than we are patient, also while a try hangs or the next one is far off; null while something has.</summary>
    private string? OverdueWords() => _failing is { } failing && _time.GetElapsedTime(failing.Since) >= _timings.Patience ? failing.Words : null;

    private void ShowTrouble() => _trouble = _ownTrouble ?? _refusedVats.Reason;

    private void OutboxFails(Exception wrong)
    {
        if (!_outboxFailed)
        {
            _log.OutboxFailed(Contact, wrong.GetBaseException().Message, _timings.OutboxRetry.TotalSeconds);
        }

        _outboxFailed = true;
    }

    private void OutboxWorks()
    {
        if (_outboxFailed)
        {
            _log.OutboxWorks(Contact);
        }

        _outboxFailed = false;
    }

    /// <summary>The same for every try of one notification, also over a restart; the time keeps it apart from a row of a store begun anew.</summary>
    public static string KeyOf(string contact, Notification notification) =>
        $"{contact}-{notification.Id}-{notification.Created.ToUnixTimeMilliseconds()}";

    /// <summary>That nothing has got through since a try that was begun then.</summary>
    private sealed record Failing(long Since, string Words);
}

/// <summary>How the way to one contact does.</summary>
/// <param name="Delivered">Notifications taken by the far side.</param>
/// <param name="Failed">Tries that came to nothing.</param>
/// <param name="DeadLettered">Notifications refused for good.</param>
/// <param name="Trouble">Why the contact cannot be reached, as a clause; null while all is well or it is too early to say.</param>
public sealed record ContactHealth(long Delivered, long Failed, long DeadLettered, string? Trouble);
