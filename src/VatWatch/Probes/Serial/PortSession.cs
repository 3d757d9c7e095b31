using System.Collections.Concurrent;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Probes.Serial.Ports;

namespace VatWatch.Probes.Serial;

/// <summary>
/// One time that a serial port is open: asks, waits for answers, hands what arrives to those who listen, and never gives an answer to the
/// wrong question (see <see cref="LateAnswers"/>). Answers that carry an address have an account for each, all others one together. Thread safe;
/// one exchange at a time.
/// </summary>
internal sealed class PortSession : IPortSink, IDisposable
{
    /// <summary>Unanswered questions in a row before silence counts as a lost port.</summary>
    private const int FewUnanswered = 3;

    /// <summary>Reply timeouts after which a line that never falls quiet is asked all the same.</summary>
    private const int LongestSettling = 8;

    /// <summary>How often a question is put once more because its answer is more like that of another; after that it has really changed.</summary>
    private const int MostDoubted = 3;

    /// <summary>After this long without a byte, what has come without an ending is a prompt, on a port where nothing is owed.</summary>
    private static readonly TimeSpan PromptRest = TimeSpan.FromMilliseconds(50);

    private readonly SerialSettings _settings;
    private readonly TimeProvider _wall;
    private readonly IPort _port;
    private readonly LineFeeds _feeds;
    private readonly Dictionary<int, AnswerAccount> _addressed = [];
    private readonly AnswerAccount _nameless;
    private readonly SilentDevices _silent;
    private readonly LineSplitter _line = new(LineEnding.Any, dropFirst: false);
    private readonly Lock _state = new();
    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly CancellationTokenSource _lost = new();
    private readonly string? _target;
    private TaskCompletionSource _change = NewSignal();
    private Reply? _reply;
    private bool _waiting;
    private long _lastHeard;
    private int _unanswered;
    private volatile string? _reason;

    /// <summary>Takes over <paramref name="port"/> and begins to listen.</summary>
    /// <param name="settings">How it was opened.</param>
    /// <param name="feeds">Who listens.</param>
    /// <param name="wall">The clock of waits.</param>
    /// <param name="asked">The questions in text that will be put.</param>
    public PortSession(SerialSettings settings, IPort port, LineFeeds feeds, TimeProvider wall, AskedForms asked)
    {
        _settings = settings;
        _port = port;
        _feeds = feeds;
        _wall = wall;
        _nameless = new AnswerAccount(null, settings.ReplyTimeout, wall, asked.AreDistinct);
        _silent = new SilentDevices(wall);
        if (asked.LookAlike)
        {
            _nameless.Late.NoteUnknownPast();
        }

        _lastHeard = wall.GetTimestamp();
        _target = SerialDevice.Target(settings.Port);
        feeds.Restart();
        port.Start(this);
    }

    /// <summary>Commands that the instrument has confirmed since the port was opened, and since it was silent last.</summary>
    public ConcurrentDictionary<string, bool> Begun { get; } = new(StringComparer.Ordinal);

    /// <summary>Cancelled when the port is gone.</summary>
    public CancellationToken Lost => _lost.Token;

    /// <summary>What is to be thrown once <see cref="Lost"/> is cancelled.</summary>
    public BusLostException Loss => new(_reason ?? "the port was closed");

    public void Dispose()
    {
        Lose("the port was closed");
        _port.Dispose();
    }

    /// <summary>Sends <paramref name="request"/> and waits for <paramref name="reply"/>.</summary>
    public async ValueTask<ExchangeOutcome> ExchangeAsync(ReadOnlyMemory<byte> request, Reply reply, CancellationToken cancel)
    {
        using var either = CancellationTokenSource.CreateLinkedTokenSource(cancel, Lost);
        try
        {
            await _turn.WaitAsync(either.Token);
        }
        catch (OperationCanceledException) when (Lost.IsCancellationRequested && !cancel.IsCancellationRequested)
        {
            throw Loss;
        }

        try
        {
            return await ExchangeInTurnAsync(request, reply, either.Token);
        }
        catch (OperationCanceledException) when (Lost.IsCancellationRequested && !cancel.IsCancellationRequested)
        {
            throw Loss;
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <summary>Why nothing is asked for now, in words.</summary>
    public string HeldReason => $"not asked, because the instrument owes several answers; the line must first be quiet for {_nameless.Late.Quiet.TotalSeconds:0.#} s";

    /// <summary>Counts a question or a wait without any answer; throws when that has gone on for so long that the port must be opened afresh.</summary>
    public void NoteUnanswered(TimeSpan period)
    {
        Begun.Clear();
        if (_target != SerialDevice.Target(_settings.Port))
        {
            Lose($"{_settings.Port} is no longer the device that was opened");
            throw Loss;
        }

        var limit = _settings.ReopenAfterSilence > 3 * period ? _settings.ReopenAfterSilence : 3 * period;
        if (Interlocked.Increment(ref _unanswered) >= FewUnanswered && _wall.GetElapsedTime(Volatile.Read(ref _lastHeard)) >= limit)
        {
            Lose($"nothing was heard for {limit.TotalSeconds:0} s, so the port is opened afresh");
            throw Loss;
        }
    }

    void IPortSink.Received(ReadOnlySpan<byte> bytes)
    {
        TaskCompletionSource? heard;
        lock (_state)
        {
            Volatile.Write(ref _lastHeard, _wall.GetTimestamp());
            Volatile.Write(ref _unanswered, 0);
            for (var rest = bytes; rest.Length > 0;)
            {
                var end = rest.IndexOfAny((byte)'\r', (byte)'\n') + 1;
                Hear(end > 0 ? rest[..end] : rest);
                rest = end > 0 ? rest[end..] : default;
            }

            heard = _waiting ? null : _change;
        }

        // Whoever waits goes on here: to wake another thread takes longer than to judge a value.
        heard?.TrySetResult();
        _feeds.Take(bytes);
    }

    void IPortSink.Lost(string reason) => Lose(reason);

    private async ValueTask<ExchangeOutcome> ExchangeInTurnAsync(ReadOnlyMemory<byte> request, Reply reply, CancellationToken cancel)
    {
        var account = AccountOf(reply);
        if ((reply.Address is { } resting ? _silent.Rest(resting) : _silent.RestBesideOthers(reply.Question)) > TimeSpan.Zero)
        {
            return ExchangeOutcome.Rested;
        }

        if (!Locked(account, late => late.TryBegin(reply.Question)))
        {
            return ExchangeOutcome.Held;
        }

        await SettleAsync(account, cancel);
        var began = _wall.GetTimestamp();
        var outcome = await AskUntilOwnAsync(account, request, reply, cancel);
        if (outcome == ExchangeOutcome.Answered)
        {
            _silent.NoteAnswered(reply.Address ?? reply.Question);
        }
        else if (reply.Address is { } address)
        {
            _silent.NoteUnanswered(address, _wall.GetElapsedTime(began));
        }
        else if (Volatile.Read(ref _lastHeard) <= began)
        {
            // Whoever is asked next waits as long again for an answer that may be late.
            _silent.NoteUnanswered(reply.Question, _wall.GetElapsedTime(began) + _settings.ReplyTimeout);
        }

        return outcome;
    }

    /// <summary>Puts the question until an answer has come that is its own, or the waits for one are used up.</summary>
    private async ValueTask<ExchangeOutcome> AskUntilOwnAsync(AnswerAccount account, ReadOnlyMemory<byte> request, Reply reply, CancellationToken cancel)
    {
        var foreign = Locked(account, late => late.Foreign);
        var waits = account.Waits;
        var answers = new List<Answer>();
        for (int missed = 0, doubted = 0; ;)
        {
            var asked = _wall.GetTimestamp();
            var answered = await AskAsync(account, request, reply, waits[missed], cancel);
            if (answered && (reply.IsSound || missed == waits.Length - 1))
            {
                answers.Add(new(reply.Said.ToArray(), reply.Number));
                account.NoteAnswer(_wall.GetElapsedTime(asked));
                var isDoubtful = answers.Count > foreign && doubted < MostDoubted && Locked(account, late => (reply.Address is null || late.IsUnsettled) && late.IsMoreLikeAnothers(answers[^1]));
                if (answers.Count > foreign && !isDoubtful)
                {
                    break;
                }

                (foreign, doubted) = isDoubtful ? (foreign + 1, doubted + 1) : (foreign, doubted);
                lock (_state)
                {
                    account.Late.NotePassedOver(isDoubtful);
                }
            }
            else if (++missed == waits.Length)
            {
                account.NoteSilence();
                return ExchangeOutcome.Unanswered;
            }
        }

        return Locked(account, late =>
        {
            late.NoteTaken(answers);
            var another = late.Owed > 0 ? reply.Another() : null;
            another?.Reset(_line.Unfinished);
            account.Trail(another);
            return ExchangeOutcome.Answered;
        });
    }

    /// <summary>Waits until no late answer is to be expected any more and a line that is begun has ended, but never for ever.</summary>
    private ValueTask SettleAsync(AnswerAccount account, CancellationToken cancel) => WaitWhileAsync(
        () =>
        {
            var begun = IsMidLine(account) && account.Late.Owed > 0 ? _settings.ReplyTimeout - _wall.GetElapsedTime(Volatile.Read(ref _lastHeard)) : TimeSpan.Zero;
            return TimeMath.Max(begun, account.Late.Rest);
        },
        LongestSettling * _settings.ReplyTimeout,
        cancel);

    /// <summary>Modbus wants a pause before a request; for lines of text it does no harm, and a line that is begun is let end.</summary>
    private ValueTask RestAsync(AnswerAccount account, CancellationToken cancel) => WaitWhileAsync(
        () => (IsMidLine(account) ? PromptRest : _settings.Gap) - _wall.GetElapsedTime(Volatile.Read(ref _lastHeard)), _settings.ReplyTimeout, cancel);

    /// <summary>Waits while there is a <paramref name="rest"/>, which is looked at anew with whatever arrives, for as long as <paramref name="limit"/>.</summary>
    private async ValueTask WaitWhileAsync(Func<TimeSpan> rest, TimeSpan limit, CancellationToken cancel)
    {
        var began = _wall.GetTimestamp();
        while (true)
        {
            Task change;
            TimeSpan left;
            lock (_state)
            {
                left = rest();
                if (left <= TimeSpan.Zero || _wall.GetElapsedTime(began) >= limit)
                {
                    return;
                }

                _change = NewSignal();
                change = _change.Task;
            }

            await WaitAsync(change, left, cancel);
        }
    }

    private async ValueTask<bool> AskAsync(AnswerAccount account, ReadOnlyMemory<byte> request, Reply reply, TimeSpan wait, CancellationToken cancel)
    {
        await RestAsync(account, cancel);
        var answered = Task.CompletedTask;
        _port.Restart(() =>
        {
            lock (_state)
            {
                account.Late.NoteAsked();
                account.Trail(null);
                reply.Reset(account.Late.Owed > 0 ? _line.Unfinished : default);
                _reply = reply;
                _waiting = true;
                _change = NewSignal();
                answered = _change.Task;
            }
        });
        try
        {
            await _port.WriteAsync(request, cancel);
            await WaitAsync(answered, wait, cancel);
        }
        finally
        {
            NoteIfOwed(account);
        }

        return answered.IsCompleted;
    }

    /// <summary>Whether a line is begun that could be an answer of this account.</summary>
    private bool IsMidLine(AnswerAccount account) => account == _nameless && _line.Unfinished.Length > 0;

    /// <summary>After a wait without an answer: from here on, what the reply collects is late.</summary>
    private void NoteIfOwed(AnswerAccount account)
    {
        lock (_state)
        {
            if (_waiting)
            {
                _waiting = false;
                _change = NewSignal();
                account.Late.NoteMissed();
                account.Trail(_reply);
            }

            _reply = null;
        }
    }

    /// <summary>Hears bytes of one line at most, so that an answer ends where they end.</summary>
    private void Hear(ReadOnlySpan<byte> bytes)
    {
        _line.Take(bytes, static _ => { });
        if (_waiting && _reply is not null && _reply.Take(bytes))
        {
            _waiting = false;
            if (_reply.Address is not null)
            {
                // A frame with a checksum is no start of a line of text.
                _line.Reset();
            }
        }

        HearLate(bytes);
    }

    /// <summary>Gives bytes to those accounts that wait for nothing but late answers. One who waits has none of those.</summary>
    private void HearLate(ReadOnlySpan<byte> bytes)
    {
        if (_nameless.Hear(bytes))
        {
            _silent.NoteNamelessAnswered();
        }

        foreach (var (address, account) in _addressed)
        {
            if (account.Hear(bytes))
            {
                _line.Reset();
                _silent.NoteAnswered(address);
            }
        }
    }

    private AnswerAccount AccountOf(Reply reply)
    {
        lock (_state)
        {
            if (reply.Address is not { } address)
            {
                return _nameless;
            }

            if (!_addressed.TryGetValue(address, out var account))
            {
                _addressed[address] = account = new AnswerAccount(address, _settings.ReplyTimeout, _wall);
            }

            return account;
        }
    }

    private T Locked<T>(AnswerAccount account, Func<LateAnswers, T> act)
    {
        lock (_state)
        {
            return act(account.Late);
        }
    }

    /// <summary>Waits for the signal or the time, whichever is first; throws only when cancelled.</summary>
    private async ValueTask WaitAsync(Task signal, TimeSpan limit, CancellationToken cancel)
    {
        await signal.WaitAsync(limit, _wall, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        cancel.ThrowIfCancellationRequested();
    }

    private void Lose(string reason)
    {
        lock (_state)
        {
            _reason ??= reason;
        }

        // Not on this thread, which the port waits for when it is closed. Nothing registered there throws.
        _ = _lost.CancelAsync();
    }

    private static TaskCompletionSource NewSignal() => new();
}
