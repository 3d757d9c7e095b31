using System.Threading.Channels;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Conditions;
using VatWatch.Pipeline.Supervision;
using VatWatch.Readings;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// The stage that thinks: takes readings, acts of people and a steady tick, drives every <see cref="VatWatcher"/>, and hands on what
/// comes out. It calls nothing that can wait, so an alarm never waits for a disk, a network or another probe.
/// </summary>
/// <remarks>Since it never waits it runs on the thread that brings its input, one at a time: waking another would take longer than to judge.</remarks>
internal sealed class WatchStage : IStage, IAlarmActions
{
    /// <summary>Inputs waiting to be judged; more than a minute of 100 probes at 1 Hz. The oldest readings are dropped and counted.</summary>
    private const int QueueBound = 8192;

    /// <summary>Conditions and delays are looked at this often in the vat's time, but not oftener than <see cref="ShortestTickPeriod"/> of the wall's.</summary>
    private static readonly TimeSpan TickPeriod = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ShortestTickPeriod = TimeSpan.FromMilliseconds(100);

    private readonly Dictionary<VatId, VatWatcher> _watchers;
    private readonly DaemonWatcher _daemon;
    private readonly WatchOutputs _outputs;
    private readonly WatchClock _clock;
    private readonly WatchClock _wall = new(TimeProvider.System);
    private readonly StandstillWatch _standstill;
    private readonly double _speed;
    private readonly ILogger<WatchStage> _log;
    private readonly Channel<WatchInput> _inputs;
    private readonly Dictionary<VatId, VatState> _told = [];
    private long _dropped;
    private long _lastTick = TimeProvider.System.GetTimestamp();
    private int _tickWaits;

    public WatchStage(
        IEnumerable<VatWatcher> watchers,
        DaemonWatcher daemon,
        WatchOutputs outputs,
        WatchClock clock,
        double speed,
        ILogger<WatchStage> log)
    {
        _watchers = watchers.ToDictionary(watcher => watcher.Vat.Id);
        _daemon = daemon;
        _outputs = outputs;
        _clock = clock;
        _speed = speed;
        _standstill = new(clock.Uptime);
        _log = log;
        _inputs = Channel.CreateBounded<WatchInput>(
            new BoundedChannelOptions(QueueBound) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true, AllowSynchronousContinuations = true },
            Drop);
    }

    public string Name => "watch";

    public Pulse Pulse { get; } = new(TimeSpan.FromSeconds(30), TimeProvider.System);

    /// <summary>Readings lost because this stage did not keep up.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    /// <summary>How long ago, by the wall, conditions and alarms were last worked out; well under a second in a healthy run.</summary>
    public TimeSpan SinceTick => TimeProvider.System.GetElapsedTime(Interlocked.Read(ref _lastTick));

    /// <summary>Takes a reading; never waits.</summary>
    public void Enqueue(Reading reading) => _inputs.Writer.TryWrite(new WatchInput(reading, null, null));

    /// <summary>Lets a vat's watcher know of something, in turn with its readings; never waits.</summary>
    public void Tell(VatId vat, Action<VatWatcher> news) => Tell(() =>
    {
        if (_watchers.TryGetValue(vat, out var told))
        {
            news(told);
        }
    });

    /// <summary>Lets the watchers know of something, in turn with their readings; never waits.</summary>
    public void Tell(Action news) => _inputs.Writer.TryWrite(new WatchInput(null, null, news));

    public async Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel)
    {
        var pending = new PendingAct(act);
        _inputs.Writer.TryWrite(new WatchInput(null, pending, null));
        return await pending.Outcome.Task.WaitAsync(cancel) switch
        {
            JournalFate.OnDisk => pending.Change,
            JournalFate.InMemory => pending.Change is { } change ? change with { Status = change.Status with { IsInMemory = true } } : null,
            _ => throw new StoreUnavailableException($"Tried to {act.Kind.Word()} alarm '{act.Alarm}' of '{act.Vat}'; it was lost on the way to the disk; try again."),
        };
    }

    public async Task RunAsync(CancellationToken cancel)
    {
        var period = TimeSpan.FromTicks(Math.Max(TickPeriod.Ticks, (long)(ShortestTickPeriod.Ticks * _speed)));
        Pulse.Tick();
        _standstill.Look();
        await using var timer = _clock.Provider.CreateTimer(_ => AskForTick(), null, period, period);
        await foreach (var input in _inputs.Reader.ReadAllAsync(cancel))
        {
            Resume();
            if (input.Reading is { } reading)
            {
                Judge(reading);
            }
            else if (input.Act is { } act)
            {
                Carry(act);
            }
            else if (input.News is { } news)
            {
                news();
            }
            else
            {
                Interlocked.Exchange(ref _tickWaits, 0);
                Tick();
                Interlocked.Exchange(ref _lastTick, TimeProvider.System.GetTimestamp());
                Pulse.Tick();
            }
        }
    }

    /// <summary>Where nothing came for a while, not even a tick, it was this program that stood still and not the probes.</summary>
    private void Resume()
    {
        if (_standstill.Look() is { } stood)
        {
            Log.StoodStill(_log, Math.Round(stood.TotalSeconds, 1));
            _daemon.NoteStandstill(stood);
            var now = _clock.Now();
            foreach (var watcher in _watchers.Values)
            {
                watcher.Resume(now);
            }
        }
    }

    private void Judge(Reading reading)
    {
        if (_watchers.TryGetValue(reading.Vat, out var watcher))
        {
            var (measurement, changes) = watcher.Accept(reading);

            // The disk begins on an alarm while the measurement goes its ways.
            _outputs.Take(changes);
            _outputs.Take(measurement);
        }
    }

    private void Carry(PendingAct pending)
    {
        var act = pending.Act;
        IReadOnlyList<AlarmChange> changes = act.Vat == VatId.Daemon ? _daemon.Carry(act, _wall.Now())
            : _watchers.TryGetValue(act.Vat, out var watcher) ? watcher.Carry(act, _clock.Now())
            : [];
        if (changes.Count == 0)
        {
            pending.Outcome.TrySetResult(JournalFate.OnDisk);
        }
        else
        {
            pending.Change = changes[0];
            _outputs.Take(changes, pending.Outcome);
        }
    }

    private void Tick()
    {
        var now = _clock.Now();
        foreach (var watcher in _watchers.Values)
        {
            var (condition, changes) = watcher.Tick(now);
            Tell(watcher.Vat, condition);
            _outputs.Take(condition);
            _outputs.Learned.Put(watcher.Vat.Id, watcher.LearnedHeat);
            _outputs.Take(changes);
        }

        // The daemon lives at the wall's pace, however fast a simulated vat does.
        _outputs.Take(_daemon.Tick(_wall.Now()));
    }

    private void Tell(VatDefinition vat, VatCondition condition)
    {
        if (!_told.TryGetValue(vat.Id, out var told) || told != condition.State)
        {
            _told[vat.Id] = condition.State;
            var (word, reason) = (condition.State.Word(), condition.Reasons[0]);
            Log.ConditionChanged(_log, vat.Name, word, reason);
        }
    }

    private void AskForTick()
    {
        if (Interlocked.Exchange(ref _tickWaits, 1) == 0)
        {
            _inputs.Writer.TryWrite(default);
        }
    }

    private void Drop(WatchInput input)
    {
        Interlocked.Increment(ref _dropped);
        input.Act?.Outcome.TrySetResult(JournalFate.Lost);
        if (input is { Reading: null, Act: null, News: null })
        {
            Interlocked.Exchange(ref _tickWaits, 0);
        }
    }

    /// <summary>A reading, an act, news, or (none of them) a tick.</summary>
    private readonly record struct WatchInput(Reading? Reading, PendingAct? Act, Action? News);

    private sealed class PendingAct(AlarmAct act)
    {
        public AlarmAct Act => act;

        /// <summary>What came of it; set before <see cref="Outcome"/>.</summary>
        public AlarmChange? Change { get; set; }

        /// <summary>Where the change is, once it was judged; on disk also when nothing changed.</summary>
        public TaskCompletionSource<JournalFate> Outcome { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
