using System.Collections.Concurrent;
using System.Threading.Channels;
using VatWatch.Alarms;
using VatWatch.Pipeline;

namespace VatWatch.Testing;

/// <summary>A live feed that shows the picture a test sets, and tells followers exactly what the test tells it. Thread safe.</summary>
public sealed class StillFeed(WatchClock clock) : ILiveFeed
{
    private readonly ConcurrentDictionary<Follower, bool> _followers = new();
    private volatile IReadOnlyList<LiveVat> _vats = [];
    private volatile IReadOnlyList<AlarmStatus> _daemonAlarms = [];

    public WatchClock Clock { get; } = clock;

    public IReadOnlyList<LiveVat> Vats
    {
        get => _vats;
        set => _vats = value;
    }

    public IReadOnlyList<AlarmStatus> DaemonAlarms
    {
        get => _daemonAlarms;
        set => _daemonAlarms = value;
    }

    /// <summary>Followers now.</summary>
    public int Followers => _followers.Count;

    public ILiveSubscription Subscribe(int capacity)
    {
        var follower = new Follower(this, capacity);
        _followers[follower] = true;
        return follower;
    }

    /// <summary>Tells every follower.</summary>
    public void Tell(object happening)
    {
        foreach (var follower in _followers.Keys)
        {
            follower.Tell(happening);
        }
    }

    private sealed class Follower : ILiveSubscription
    {
        private readonly StillFeed _owner;
        private readonly Channel<object> _channel;
        private long _dropped;

        public Follower(StillFeed owner, int capacity)
        {
            _owner = owner;
            _channel = Channel.CreateBounded<object>(
                new BoundedChannelOptions(capacity) { FullMode = BoundedChannelFullMode.DropOldest }, _ => Interlocked.Increment(ref _dropped));
        }

        public ChannelReader<object> Events => _channel.Reader;

        public long Dropped => Interlocked.Read(ref _dropped);

        public void Tell(object happening) => _channel.Writer.TryWrite(happening);

        public void Dispose() => _owner._followers.TryRemove(this, out _);
    }
}
