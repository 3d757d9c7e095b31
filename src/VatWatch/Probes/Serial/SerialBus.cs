using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>A serial port that probes share. Thread safe; opened and closed by one loop.</summary>
public sealed class SerialBus : IOverheardBus
{
    private static readonly TimeSpan CloseLimit = TimeSpan.FromSeconds(2);

    private readonly SerialSettings _settings;
    private readonly TimeProvider _wall;
    private readonly Func<SerialSettings, IPort> _open;
    private readonly Dictionary<(string Ask, LineEnding Ending), SharedLine> _shared = [];
    private readonly AskedForms _asked = new();
    private readonly LastingName _names;
    private string? _lasting;
    private volatile PortSession? _session;
    private Task<IPort>? _opening;

    internal SerialBus(BusId id, SerialSettings settings, TimeProvider wall, Func<SerialSettings, IPort> open, LastingName? names = null)
    {
        _names = names ?? new LastingName();
        Id = id;
        _settings = settings;
        _wall = wall;
        _open = open;
    }

    public BusId Id { get; }

    public string Device => _settings.Port;

    public Action<OverheardBytes>? Overhear { get; set; }

    internal SerialSettings Settings => _settings;

    internal TimeProvider Wall => _wall;

    internal LineFeeds Feeds { get; } = new();

    /// <summary>A probe will ask this and look for its answer by this pattern.</summary>
    internal void Expect(AskedForm form) => _asked.Add(form);

    public async ValueTask OpenAsync(CancellationToken cancel)
    {
        if (_session is not null)
        {
            throw new InvalidOperationException($"Bus '{Id}' is open already.");
        }

        if (_opening is { IsCompleted: false })
        {
            // Every try more would cost a thread that may never come back.
            throw new BusLostException($"an earlier try to open {_settings.Port} has not come back yet");
        }

        if (LastingName.Moved(_settings.Port, _lasting) is { } moved)
        {
            throw new BusLostException(moved);
        }

        // Opening may wait for the driver of the device, so not on the caller's thread.
        var opening = Task.Run(() => _open(_settings), CancellationToken.None);
        _opening = opening;
        var port = await opening;
        if (cancel.IsCancellationRequested)
        {
            port.Dispose();
            cancel.ThrowIfCancellationRequested();
        }

        _lasting = _names.Of(_settings.Port) ?? _lasting;
        lock (_shared)
        {
            _shared.Clear();
        }

        _session = new PortSession(_settings, Overhear is { } overhear ? new OverheardPort(port, overhear) : port, Feeds, _wall, _asked);
    }

    public async ValueTask CloseAsync()
    {
        if (Interlocked.Exchange(ref _session, null) is not { } session)
        {
            return;
        }

        // Closing a device that is gone may wait for bytes that nobody takes any more; it is then left to end by itself.
        var closing = Task.Run(session.Dispose);
        using var stop = new CancellationTokenSource();
        await Task.WhenAny(closing, Task.Delay(CloseLimit, _wall, stop.Token));
        await stop.CancelAsync();
    }

    public async Task WatchForLossAsync(CancellationToken cancel)
    {
        var session = Session;
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, session.Lost);
        await Task.Delay(Timeout.InfiniteTimeSpan, _wall, either.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        cancel.ThrowIfCancellationRequested();
        throw session.Loss;
    }

    public ValueTask DisposeAsync() => CloseAsync();

    internal PortSession Session => _session ?? throw new BusLostException("the port is not open");

    /// <summary>
    /// The line with which the instrument answers <paramref name="ask"/>: the first that <paramref name="pattern"/> knows. Probes that ask the same
    /// within <paramref name="maxAge"/> share one exchange where its line serves both; the same probe never gets the same line twice.
    /// </summary>
    internal async ValueTask<AskedLine> AskLineAsync(
        AskText ask, LineEnding ending, LinePattern pattern, ProbeId probe, TimeSpan maxAge, CancellationToken cancel)
    {
        var key = (ask.Text, ending);
        lock (_shared)
        {
            if (_shared.TryGetValue(key, out var shared) && _wall.GetElapsedTime(shared.Taken) <= maxAge && shared.Answer.Serves(pattern) && shared.Users.Add(probe))
            {
                return shared.Answer;
            }
        }

        var reply = new LineReply(ending, line => !ask.IsEchoedBy(line) && pattern.Knows(line) && !Feeds.Claim(line), ask.Question,
            _asked.LookAlike ? line => pattern.NumberIn(line) : null);
        var session = Session;
        var answer = Told(await session.ExchangeAsync(ask.Bytes, reply, cancel), reply, session);
        lock (_shared)
        {
            _shared[key] = new SharedLine(answer, _wall.GetTimestamp(), [probe]);
        }

        return answer;
    }

    /// <summary>
    /// Tells the instrument what it is to hear once after the port was opened, and again after it was silent, because it may have been switched
    /// off meanwhile. Null when it has confirmed all of it, else why there is no value.
    /// </summary>
    internal async ValueTask<Sample?> BeginAsync(TextLineSettings settings, TimeSpan every, CancellationToken cancel)
    {
        var session = Session;
        foreach (var command in settings.First.Where(command => !session.Begun.ContainsKey(command.Ask.Text)))
        {
            var reply = new LineReply(settings.Ending, line => !command.Ask.IsEchoedBy(line) && command.Answer.Match(line).Success, command.Ask.Text);
            var answer = Told(await session.ExchangeAsync(command.Ask.Bytes, reply, cancel), reply, session);
            if (answer.Line is null)
            {
                return Unanswered(command.Ask, answer, every);
            }

            session.Begun[command.Ask.Text] = true;
        }

        return null;
    }

    /// <summary>What a question without a line to take means. Throws when the port must be opened afresh.</summary>
    internal Sample Unanswered(AskText ask, AskedLine answer, TimeSpan every)
    {
        var limit = _settings.ReplyTimeout.TotalMilliseconds;
        if (answer.Instead is { } instead)
        {
            return Sample.Fault($"the answer to '{ask.Text}' within {limit:0} ms was {instead}");
        }

        if (answer.IsRested)
        {
            return Sample.Missing($"'{ask.Text}' is not answered; it is asked less often, so that the others on the line keep their time");
        }

        Session.NoteUnanswered(every);
        return Sample.Missing(answer.Held ?? $"no answer to '{ask.Text}' within {limit:0} ms");
    }

    private static AskedLine Told(ExchangeOutcome outcome, LineReply reply, PortSession session) => outcome switch
    {
        ExchangeOutcome.Answered => new(reply.Line, null, null, reply.PassedOver),
        ExchangeOutcome.Held => new(null, null, session.HeldReason),
        ExchangeOutcome.Rested => new(null, null, null) { IsRested = true },
        _ => new(null, reply.Instead, null),
    };

    private sealed record SharedLine(AskedLine Answer, long Taken, HashSet<ProbeId> Users);
}

/// <summary>What came back for one question in text.</summary>
/// <param name="Line">The line without its ending, or null when no whole line came in time.</param>
/// <param name="Instead">What came instead, in words; null when nothing did.</param>
/// <param name="Held">Why nothing was asked, in words; null when it was.</param>
/// <param name="PassedOver">The lines before it that were not wanted, quoted; null when there was none.</param>
internal readonly record struct AskedLine(byte[]? Line, string? Instead, string? Held, string? PassedOver = null)
{
    /// <summary>Whether it was not asked, because the others on the line have their turn: see <see cref="SilentDevices"/>.</summary>
    public bool IsRested { get; init; }

    /// <summary>Whether a probe of this pattern can take it over: a line of its own, or silence.</summary>
    public bool Serves(LinePattern pattern) => Line is null ? Instead is null : pattern.Knows(Line);
}
