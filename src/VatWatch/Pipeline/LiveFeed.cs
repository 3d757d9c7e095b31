using System.Collections.Concurrent;
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
    private readonly ConcurrentDictionary<Subscription, byte> _followers = new();
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
        var subscription = new Subscription(capacity, self => _followers.TryRemove(self, out _));
        _followers[subscription] = 0;
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
        foreach (var follower in _followers.Keys)
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
