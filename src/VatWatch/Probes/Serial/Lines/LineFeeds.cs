namespace VatWatch.Probes.Serial.Lines;

/// <summary>What comes by itself on a port, cut into lines for the probes that listen. Thread safe.</summary>
internal sealed class LineFeeds
{
    private readonly Lock _lock = new();
    private readonly List<Feed> _feeds = [];
    private volatile IListener[] _listeners = [];

    /// <summary>A probe that listens.</summary>
    public interface IListener
    {
        /// <summary>Whether the line is one of this probe's.</summary>
        bool Claims(byte[] line);

        /// <summary>Takes a line, its own or not.</summary>
        void Hear(byte[] line);

        /// <summary>Goes on with what it has heard, on the caller's thread; never waits.</summary>
        void GoOn();
    }

    /// <summary>Adds a listener for lines that end in <paramref name="ending"/>.</summary>
    public void Add(LineEnding ending, IListener listener)
    {
        lock (_lock)
        {
            var feed = _feeds.Find(f => f.Ending == ending);
            if (feed is null)
            {
                feed = new Feed(ending);
                _feeds.Add(feed);
            }

            feed.Listeners.Add(listener);
            _listeners = [.. _listeners, listener];
        }
    }

    /// <summary>Whether any listener takes the line for its own.</summary>
    public bool Claim(byte[] line)
    {
        lock (_lock)
        {
            return _feeds.Exists(feed => feed.Listeners.Exists(listener => listener.Claims(line)));
        }
    }

    /// <summary>Forgets unfinished lines; what comes first is taken for the rest of a line.</summary>
    public void Restart()
    {
        lock (_lock)
        {
            _feeds.ForEach(feed => feed.Splitter.Reset());
        }
    }

    /// <summary>Takes bytes as they came.</summary>
    public void Take(ReadOnlySpan<byte> bytes)
    {
        lock (_lock)
        {
            foreach (var feed in _feeds)
            {
                feed.Splitter.Take(bytes, feed.Tell);
            }
        }

        foreach (var listener in _listeners)
        {
            listener.GoOn();
        }
    }

    private sealed class Feed(LineEnding ending)
    {
        public LineEnding Ending { get; } = ending;

        public LineSplitter Splitter { get; } = new(ending, dropFirst: true);

        public List<IListener> Listeners { get; } = [];

        public void Tell(ReadOnlySpan<byte> line)
        {
            var copy = line.ToArray();
            Listeners.ForEach(listener => listener.Hear(copy));
        }
    }
}
