using System.Collections.Concurrent;

namespace VatWatch.Probes.Serial;

/// <summary>
/// One time that a serial port is open: asks, waits for answers, hands what arrives to those who listen, and never gives an answer to the
/// wrong question (see <see cref="LateAnswers"/>). Thread safe; one exchange at a time.
/// </summary>
internal sealed class PortSession : IPortSink, IDisposable
{
    /// <summary>Unanswered questions in a row before silence counts as a lost port.</summary>
    private const int FewUnanswered = 3;

    /// <summary>Reply timeouts after which a line that never falls quiet is asked all the same.</summary>
    private const int LongestSettling = 4;

    private readonly SerialSettings _settings;
    private readonly TimeProvider _wall;
    private readonly IPort _port;
    private readonly LineFeeds _feeds;
    private readonly LateAnswers _late;
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
    public PortSession(SerialSettings settings, IPort port, LineFeeds feeds, TimeProvider wall)
    {
        _settings = settings;
        _port = port;
        _feeds = feeds;
        _wall = wall;
        _late = new LateAnswers(settings.ReplyTimeout, wall);
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
    public string HeldReason =>
        $"not asked, because the instrument owes several answers; the line must first be quiet for {_late.Quiet.TotalSeconds:0.#} s";

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
        lock (_state)
        {
            Volatile.Write(ref _lastHeard, _wall.GetTimestamp());
            Volatile.Write(ref _unanswered, 0);
            _late.NoteHeard();
            if (_reply is not null && _reply.Take(bytes))
            {
                Answered();
            }
        }

        _feeds.Take(bytes);
    }

    void IPortSink.Lost(string reason) => Lose(reason);

    private async ValueTask<ExchangeOutcome> ExchangeInTurnAsync(ReadOnlyMemory<byte> request, Reply reply, CancellationToken cancel)
    {
        lock (_state)
        {
            if (_late.IsHeld)
            {
                return ExchangeOutcome.Held;
            }
        }

        await SettleAsync(cancel);
        int times;
        lock (_state)
        {
            times = _late.Owed + 1;
        }

        var lastAsked = 0L;
        for (var asked = 0; asked < times; asked++)
        {
            lastAsked = _wall.GetTimestamp();
            if (!await AskAsync(request, reply, cancel))
            {
                return ExchangeOutcome.Unanswered;
            }
        }

        lock (_state)
        {
            _late.NoteTaken(times, lastAsked);
            _reply = times > 1 ? reply.Another() : null;
        }

        return ExchangeOutcome.Answered;
    }

    /// <summary>Waits until no late answer is to be expected any more, but never for ever.</summary>
    private async ValueTask SettleAsync(CancellationToken cancel)
    {
        var began = _wall.GetTimestamp();
        while (true)
        {
            Task change;
            TimeSpan rest;
            lock (_state)
            {
                rest = _late.Rest;
                if (rest <= TimeSpan.Zero || _wall.GetElapsedTime(began) >= LongestSettling * _settings.ReplyTimeout)
                {
                    _late.EndWait();
                    _reply = null;
                    break;
                }

                _change = NewSignal();
                change = _change.Task;
            }

            await WaitAsync(change, rest, cancel);
        }

        // Modbus wants a pause before a request; for lines of text it does no harm.
        var quiet = _settings.Gap - _wall.GetElapsedTime(Volatile.Read(ref _lastHeard));
        if (quiet > TimeSpan.Zero)
        {
            await Task.Delay(quiet, _wall, cancel);
        }
    }

    private async ValueTask<bool> AskAsync(ReadOnlyMemory<byte> request, Reply reply, CancellationToken cancel)
    {
        var answered = Task.CompletedTask;
        _port.Restart(() =>
        {
            lock (_state)
            {
                reply.Reset();
                _reply = reply;
                _waiting = true;
                _change = NewSignal();
                answered = _change.Task;
            }
        });
        try
        {
            await _port.WriteAsync(request, cancel);
            await WaitAsync(answered, _settings.ReplyTimeout, cancel);
        }
        finally
        {
            NoteIfOwed();
        }

        return answered.IsCompleted;
    }

    /// <summary>After a wait without an answer: from here on, what the reply collects is late.</summary>
    private void NoteIfOwed()
    {
        lock (_state)
        {
            if (_waiting)
            {
                _waiting = false;
                _change = NewSignal();
                _late.NoteMissed();
            }
        }
    }

    /// <summary>One whole answer has come, in time or late. Called with the state locked.</summary>
    private void Answered()
    {
        if (_waiting)
        {
            _waiting = false;
            _reply = null;
        }
        else
        {
            _late.NoteLate();
            _reply!.Reset();
        }

        _change.TrySetResult();
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

    private static TaskCompletionSource NewSignal() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}
