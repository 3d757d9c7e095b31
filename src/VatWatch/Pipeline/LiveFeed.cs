using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Threading.Channels;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>Holds the newest of everything for pages and topics. Written by the watch and journal stages, read by anyone, never waits.</summary>
internal sealed class LiveFeed : ILiveFeed
{
    private readonly LiveSlot[] _slots;
    private readonly Dictionary<VatId, LiveSlot> _byVat;
    private ImmutableArray<Subscription> _followers = [];
    private readonly ConcurrentDictionary<AlarmName, AlarmStatus> _daemonAlarms = new();

    public LiveFeed(IEnumerable<VatDefinition> vats, WatchClock clock)
    {
        Clock = clock;
        _slots = [.. vats.Select(vat => new LiveSlot(vat, clock.Now()))];
        _byVat = _slots.ToDictionary(slot => slot.Vat.Id);
    }

    public WatchClock Clock { get; }

    public IReadOnlyList<LiveVat> Vats => [.. _slots.Select(slot => slot.Picture())];

    public IReadOnlyList<AlarmStatus> DaemonAlarms => LiveSlot.Standing(_daemonAlarms.Values);

    public ILiveSubscription Subscribe(int capacity)
    {
        var subscription = new Subscription(capacity, self => ImmutableInterlocked.Update(ref _followers, (all, one) => all.Remove(one), self));
        ImmutableInterlocked.Update(ref _followers, (all, one) => all.Add(one), subscription);
        return subscription;
    }

    public void Show(Measurement measurement)
    {
        _byVat[measurement.Vat].Show(measurement);
        Tell(measurement);
    }

    /// <summary>True when somebody looking at the vat would see a difference.</summary>
    public bool Show(VatCondition condition)
    {
        var differs = _byVat[condition.Vat].Show(condition);
        if (differs)
        {
            Tell(condition);
        }

        return differs;
    }

    public void Show(AlarmStatus status)
    {
        if (status.Vat == VatId.Daemon)
        {
            _daemonAlarms[status.Alarm] = status;
        }
        else if (_byVat.TryGetValue(status.Vat, out var slot))
        {
            slot.Show(status);
        }

        Tell(status);
    }

    public void Show(SessionChange change) => Tell(change);

    private void Tell(object happened)
    {
        foreach (var follower in _followers)
        {
            follower.Enqueue(happened);
        }
    }

    private sealed class Subscription : ILiveSubscription
    {
        private readonly Channel<object> _channel;
        private readonly Action<Subscription> _leave;
        private long _dropped;

        public Subscription(int capacity, Action<Subscription> leave)
        {
            _leave = leave;
            _channel = Channel.CreateBounded<object>(
                new BoundedChannelOptions(capacity) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true },
                _ => Interlocked.Increment(ref _dropped));
        }

        public ChannelReader<object> Events => _channel.Reader;

        public long Dropped => Interlocked.Read(ref _dropped);

        public void Enqueue(object happened) => _channel.Writer.TryWrite(happened);

        public void Dispose()
        {
            _leave(this);
            _channel.Writer.TryComplete();
        }
    }
}

/// <summary>The newest of one vat, one cell per probe and alarm. One writer per cell, any number of readers.</summary>
internal sealed class LiveSlot
{
    private readonly Measurement?[] _latest;
    private readonly Dictionary<ProbeId, int> _cell;
    private readonly ConcurrentDictionary<AlarmName, AlarmStatus> _alarms = new();
    private VatCondition _condition;

    public LiveSlot(VatDefinition vat, Stamp start)
    {
        Vat = vat;
        _latest = new Measurement?[vat.Probes.Count];
        _cell = vat.Probes.Select((probe, index) => (probe.Id, index)).ToDictionary(pair => pair.Id, pair => pair.index);
        _condition = new VatCondition { Vat = vat.Id, Stamp = start, State = VatState.Unknown, Reasons = ["The watch has just begun."] };
    }

    public VatDefinition Vat { get; }

    public void Show(Measurement measurement) => Volatile.Write(ref _latest[_cell[measurement.Probe]], measurement);

    /// <summary>True when somebody looking at the vat would see a difference.</summary>
    public bool Show(VatCondition condition)
    {
        var before = Volatile.Read(ref _condition);
        Volatile.Write(ref _condition, condition);
        return !LooksAlike(before, condition);
    }

    public void Show(AlarmStatus status) => _alarms[status.Alarm] = status;

    public LiveVat Picture() => new(
        Vat,
        [.. Enumerable.Range(0, _latest.Length).Select(cell => Volatile.Read(ref _latest[cell])).OfType<Measurement>()],
        Volatile.Read(ref _condition),
        Standing(_alarms.Values));

    public static IReadOnlyList<AlarmStatus> Standing(IEnumerable<AlarmStatus> alarms) =>
    [
        .. alarms.Where(alarm => alarm.State != AlarmState.Normal)
            .OrderByDescending(alarm => alarm.IsActive)
            .ThenByDescending(alarm => alarm.Priority)
            .ThenByDescending(alarm => alarm.Since.Utc),
    ];

    private static bool LooksAlike(VatCondition a, VatCondition b) =>
        a.State == b.State
        && Minutes(a.TimeToBand) == Minutes(b.TimeToBand)
        && Minutes(a.TimeToLimit) == Minutes(b.TimeToLimit)
        && Steps(a.Margin?.Millivolts) == Steps(b.Margin?.Millivolts)
        && a.Recoveries.Count == b.Recoveries.Count
        && a.Diagnoses.Select(one => one.Kind).SequenceEqual(b.Diagnoses.Select(one => one.Kind))
        && a.Reasons.SequenceEqual(b.Reasons);

    /// <summary>A margin in steps of 5 mV: less is the probe's own unrest.</summary>
    private static int? Steps(double? millivolts) => millivolts is { } value ? (int)Math.Round(value / 5) : null;

    private static (int, int?)? Minutes(Forecast? forecast) =>
        forecast is null ? null : ((int)forecast.Early.TotalMinutes, (int?)forecast.Late?.TotalMinutes);
}
