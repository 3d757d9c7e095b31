using System.Threading.Channels;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Writes alarm changes and their notifications to the disk, and only then shows them to anyone. When the disk refuses or hangs, people are told
/// all the same after <see cref="Patience"/> — a full card must not keep a phone silent — and the changes wait in memory.
/// </summary>
/// <remarks>
/// It never blocks, so it needs no thread of its own to be woken: it goes on on the thread that brings a change, as far as the store's queue, and sends
/// the alarm on the one that hears of the commit.
/// </remarks>
internal sealed class JournalStage : IStage
{
    /// <summary>Changes waiting for the disk. Delays and deadbands keep a vat to a few a minute; this is days.</summary>
    private const int QueueBound = 10_000;

    /// <summary>How long a change may wait for the disk before it is told from memory.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    /// <summary>How often it is looked whether somebody is to be told without a change: escalation, repeats, the summary of a flood.</summary>
    private static readonly TimeSpan DuePeriod = TimeSpan.FromSeconds(1);

    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan DiskLimit = TimeSpan.FromMinutes(5);

    private readonly IAlarmStore _store;
    private readonly Action<AlarmStatus> _show;
    private readonly ITopicPublisher _publisher;
    private readonly NotificationRouter _contacts;
    private readonly Func<VatId, string> _nameOf;
    private readonly DisplayUnits _units;
    private readonly WatchClock _clock;
    private readonly TimeProvider _time;
    private readonly ILogger<JournalStage> _log;
    private readonly Channel<JournalEntry> _entries;
    private readonly List<JournalEntry> _waiting = [];
    private Task? _more;
    private long _lost;

    public JournalStage(
        IAlarmStore store,
        Action<AlarmStatus> show,
        ITopicPublisher publisher,
        NotificationRouter contacts,
        Func<VatId, string> nameOf,
        DisplayUnits units,
        WatchClock clock,
        TimeProvider time,
        ILogger<JournalStage> log)
    {
        _store = store;
        _show = show;
        _publisher = publisher;
        _contacts = contacts;
        _nameOf = nameOf;
        _units = units;
        _clock = clock;
        _time = time;
        _log = log;
        Pulse = new(DiskLimit, time);
        _entries = Channel.CreateBounded<JournalEntry>(
            new BoundedChannelOptions(QueueBound) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true, AllowSynchronousContinuations = true },
            lost =>
            {
                Interlocked.Increment(ref _lost);
                lost.Outcome?.TrySetResult(JournalFate.Lost);
            });
    }

    public string Name => "journal";

    /// <summary>Long, because people are told from memory while the disk does not answer, and a new start would not mend the disk.</summary>
    public Pulse Pulse { get; }

    /// <summary>Entries lost because the disk was away for too long; never above 0 in a healthy run.</summary>
    public long Lost => Interlocked.Read(ref _lost);

    /// <summary>Takes changes; never waits.</summary>
    public void Enqueue(JournalEntry entry) => _entries.Writer.TryWrite(entry);

    public async Task RunAsync(CancellationToken cancel)
    {
        try
        {
            while (true)
            {
                await WaitForMoreAsync(DuePeriod, cancel);
                await WriteAllAsync(cancel);
            }
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            await WriteLastAsync();
            throw;
        }
    }

    private async Task WriteAllAsync(CancellationToken cancel)
    {
        var wait = Patience / 4;
        var began = _time.GetTimestamp();
        var refused = false;
        while (true)
        {
            TakeWaiting();
            if (_waiting.Count == 0)
            {
                return;
            }

            if (await TryWriteAsync(cancel) is not { } reason)
            {
                if (refused)
                {
                    Log.JournalResumed(_log, _waiting.Count);
                }

                Finish();
                return;
            }

            refused = true;
            var patience = Patience - _time.GetElapsedTime(began);
            if (patience <= TimeSpan.Zero)
            {
                var count = _waiting.Sum(entry => entry.Changes.Count);
                Log.JournalWaits(_log, count, wait.TotalSeconds, reason);
                TellFromMemory();
            }

            await WaitForMoreAsync(patience > TimeSpan.Zero ? TimeMath.Min(wait, patience) : wait, cancel);
            wait = TimeSpan.FromTicks(Math.Min(LongestWait.Ticks, wait.Ticks * 2));
        }
    }

    private async Task WaitForMoreAsync(TimeSpan wait, CancellationToken cancel)
    {
        Pulse.Tick();
        var more = _more ??= _entries.Reader.WaitToReadAsync(cancel).AsTask();
        await more.WaitAsync(wait, _time, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (more.IsCompleted)
        {
            _more = null;
        }

        cancel.ThrowIfCancellationRequested();
    }

    private async Task<string?> TryWriteAsync(CancellationToken cancel)
    {
        // A disk that hangs does not refuse: the store itself waits longer for it than people may.
        using var limit = new Deadline(Patience, _time, cancel);
        try
        {
            await _store.AppendAsync([.. _waiting.SelectMany(entry => entry.Changes)], Outgoing(), _contacts.Unstored, limit.Token);
            _contacts.MarkStored();
            return null;
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return $"the disk has not answered for {Patience.TotalSeconds} s";
        }
        catch (StoreUnavailableException e)
        {
            return e.Message;
        }
    }

    private async Task WriteLastAsync()
    {
        TakeWaiting();
        if (_waiting.Count > 0)
        {
            using var limit = new CancellationTokenSource(Patience, _time);
            if (await TryWriteAsync(limit.Token) is null)
            {
                Finish();
            }
        }
    }

    private void TakeWaiting()
    {
        var now = _clock.Now();
        while (_waiting.Count < QueueBound && _entries.Reader.TryRead(out var entry))
        {
            entry.Messages = [.. entry.Changes.SelectMany(change => _contacts.Take(change, now))];
            _waiting.Add(entry);
        }

        var due = _contacts.Due(now);
        if (due.Count > 0 && _waiting.Count < QueueBound)
        {
            _waiting.Add(new JournalEntry([], null) { Messages = due });
        }
    }

    private IReadOnlyList<Message> Outgoing() => [.. _waiting.Where(entry => !entry.Told).SelectMany(entry => entry.Messages)];

    private void TellFromMemory()
    {
        foreach (var entry in _waiting.Where(entry => !entry.Told))
        {
            // Before anybody is rung: who looks for it would else look on the disk, which does not answer.
            _contacts.KeepInMemory(entry.Messages);
            Tell(entry, isInMemory: true);
            entry.Outcome?.TrySetResult(JournalFate.InMemory);
        }
    }

    private void Tell(JournalEntry entry, bool isInMemory)
    {
        if (!entry.Told)
        {
            // A note is for the journal alone: it changes nothing that topics or pages show.
            foreach (var change in entry.Changes.Where(change => change.Note is null))
            {
                Show(change.Status with { IsInMemory = isInMemory });
            }

            _contacts.Wake();
            foreach (var change in entry.Changes)
            {
                Write(change);
            }
        }

        entry.Told = true;
    }

    private void Show(AlarmStatus status)
    {
        _publisher.Enqueue(status);
        _show(status);
    }

    private void Finish()
    {
        // What was told from memory is shown once more, now that the disk has it.
        foreach (var alarm in _waiting.Where(entry => entry.Told).SelectMany(entry => entry.Changes).Where(change => change.Note is null)
            .GroupBy(change => (change.Status.Vat, change.Status.Alarm)))
        {
            Show(alarm.Last().Status);
        }

        foreach (var entry in _waiting)
        {
            Tell(entry, isInMemory: false);
            entry.Outcome?.TrySetResult(JournalFate.OnDisk);
        }

        _waiting.Clear();
    }

    private void Write(AlarmChange change)
    {
        var status = change.Status;
        var (name, priority, state, text) = (_nameOf(status.Vat), status.Priority.Word(), status.State.Word(), status.Text.In(_units));
        if (change.Note is { } note)
        {
            Log.NoteTaken(_log, status.Alarm.Value, name, change.By ?? "", note);
        }
        else if (status.State == AlarmState.Unacknowledged)
        {
            Log.AlarmEntered(_log, status.Alarm.Value, name, priority, state, text);
        }
        else if (!change.Announce && change.By is null)
        {
            Log.AlarmMoved(_log, status.Alarm.Value, name, state, text);
        }
        else
        {
            var by = change.By is { } person ? $" (by {person})" : "";
            Log.AlarmChanged(_log, status.Alarm.Value, name, state, by, text);
        }
    }
}

/// <summary>Where an alarm change is.</summary>
internal enum JournalFate
{
    OnDisk,

    /// <summary>Held in memory, because the disk does not take it.</summary>
    InMemory,

    /// <summary>Nowhere: too much waited.</summary>
    Lost,
}

/// <summary>Alarm changes that belong together, and whoever waits until it is known where they are.</summary>
internal sealed record JournalEntry(IReadOnlyList<AlarmChange> Changes, TaskCompletionSource<JournalFate>? Outcome)
{
    /// <summary>What people are to be told of them.</summary>
    public IReadOnlyList<Message> Messages { get; set; } = [];

    /// <summary>True once people were told without the disk, so that they are not told again.</summary>
    public bool Told { get; set; }
}
