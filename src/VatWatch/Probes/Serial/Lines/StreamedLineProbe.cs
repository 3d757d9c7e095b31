namespace VatWatch.Probes.Serial.Lines;

/// <summary>A probe whose instrument speaks by itself: its value is the newest line that has its form.</summary>
internal sealed class StreamedLineProbe : IProbe, LineFeeds.IListener
{
    /// <summary>
    /// Oldest line that is taken as it is; for an older one the next is awaited. Within a period no line is thrown away for its age: the one that
    /// shows an overheating vat may come just after the last was taken.
    /// </summary>
    private static readonly TimeSpan OldestKept = TimeSpan.FromMinutes(1);

    private readonly SerialBus _bus;
    private readonly TextLineSettings _settings;
    private readonly LinePattern _pattern;
    private readonly TimeSpan _maxAge;
    private readonly Lock _lock = new();
    private TaskCompletionSource _arrival = new();
    private Sample? _newest;
    private long _arrived;
    private string? _other;

    public StreamedLineProbe(SerialBus bus, ProbeDefinition definition, TextLineSettings settings)
    {
        _bus = bus;
        _settings = settings;
        _pattern = settings.Pattern;
        _maxAge = definition.Every < OldestKept ? definition.Every : OldestKept;
        Definition = definition;
        bus.Feeds.Add(settings.Ending, this);
    }

    public ProbeDefinition Definition { get; }

    public bool Listens => true;

    public bool Claims(byte[] line) => _pattern.Knows(line);

    public void Hear(byte[] line)
    {
        var sample = _pattern.Parse(line);
        lock (_lock)
        {
            if (sample is null)
            {
                _other = LinePattern.Show(line);
                return;
            }

            _newest = sample;
            _arrived = _bus.Wall.GetTimestamp();
        }
    }

    public void GoOn()
    {
        TaskCompletionSource? arrival;
        lock (_lock)
        {
            arrival = _newest is null ? null : _arrival;
        }

        arrival?.TrySetResult();
    }

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        if (await _bus.BeginAsync(_settings, Definition.Every, cancel) is { } refused)
        {
            return refused;
        }

        var session = _bus.Session;
        var arrival = Prepare();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel, session.Lost);
        await arrival.WaitAsync(Definition.Every, _bus.Wall, stop.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        cancel.ThrowIfCancellationRequested();
        if (session.Lost.IsCancellationRequested)
        {
            throw session.Loss;
        }

        return Taken() ?? Silence(session);
    }

    /// <summary>Drops a line that is too old, and returns what completes when there is one.</summary>
    private Task Prepare()
    {
        lock (_lock)
        {
            if (_newest is null || _bus.Wall.GetElapsedTime(_arrived) > _maxAge)
            {
                _newest = null;
                _other = null;
                _arrival = new TaskCompletionSource();
            }

            return _arrival.Task;
        }
    }

    private Sample? Taken()
    {
        lock (_lock)
        {
            var taken = _newest;
            _newest = null;
            return taken;
        }
    }

    private Sample Silence(PortSession session)
    {
        if (_other is { } other)
        {
            return Sample.Fault($"no line matched the pattern within {Definition.Every.TotalSeconds:0.#} s; the last was '{other}'");
        }

        session.NoteUnanswered(Definition.Every);
        return Sample.Missing($"nothing was heard within {Definition.Every.TotalSeconds:0.#} s");
    }
}
