using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Daemon;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Influx;

/// <summary>
/// The stage that keeps a copy of the store on a server: what is on disk goes out, in order, and the place moves only when the server has taken
/// it. A point that is sent twice is the same point, so the place itself is written rarely.
/// </summary>
public sealed class InfluxForwarder : IStoreFollower
{
    /// <summary>Waiting readings are counted up to here; beyond it is only a long while.</summary>
    public const int MostCounted = 1_000_000;

    /// <summary>How often the place is written. A kill costs sending this much again, and a write costs the card a commit.</summary>
    private static readonly TimeSpan SaveEvery = TimeSpan.FromMinutes(1);

    /// <summary>How long a server may ask us to wait; a longer wait is cut to this.</summary>
    private static readonly TimeSpan LongestAsked = TimeSpan.FromHours(1);

    /// <summary>One request takes 5 min at most, and there are several tries with a smaller one.</summary>
    private static readonly TimeSpan RoundLimit = TimeSpan.FromMinutes(30);

    /// <summary>A copy that is behind for this long is behind even when it makes headway.</summary>
    private static readonly TimeSpan LongestCatchUp = TimeSpan.FromDays(1);

    private readonly WatchStore _store;
    private readonly InfluxOptions _options;
    private readonly TimeProvider _time;
    private readonly ILogger<InfluxForwarder> _log;
    private readonly PointLines _points;
    private readonly Backoff _backoff;
    private ForwardPlace? _place;
    private ForwardPlace? _saved;
    private long _savedAt;
    private long _headwayAt;
    private long _caughtUpAt;
    private ForwarderState _state = ForwarderState.Beginning;

    /// <summary>Copies <paramref name="store"/>, with <paramref name="site"/> as the first tag of every point and alarms told in <paramref name="units"/>.</summary>
    public InfluxForwarder(WatchStore store, InfluxOptions options, string site, DisplayUnits units, TimeProvider time, ILogger<InfluxForwarder> log)
    {
        _store = store;
        _options = options;
        _time = time;
        Pulse = new(RoundLimit, time);
        _log = log;
        _points = new(site, units);
        _backoff = new(options.Waits.First, options.Waits.Longest, Random.Shared.NextDouble);
        _savedAt = _headwayAt = _caughtUpAt = time.GetTimestamp();
    }

    public string Name => "influx";

    public Pulse Pulse { get; }

    /// <summary>How the copy stands; safe to ask from anywhere.</summary>
    public ForwarderState State => Volatile.Read(ref _state);

    public IEnumerable<DaemonSignal> Signals => [Signal(State)];

    public async Task RunAsync(CancellationToken cancel)
    {
        using var link = new InfluxLink(_options, _time);
        var sender = new BatchSender(link);
        try
        {
            while (true)
            {
                Pulse.Tick();
                var wait = await PassAsync(sender, cancel);
                await SaveIfDueAsync(SaveEvery, cancel);
                Pulse.Rest();
                await Task.Delay(wait, _time, cancel);
            }
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            await SaveIfDueAsync(TimeSpan.Zero, CancellationToken.None);
            throw;
        }
    }

    /// <summary>Sends everything there is, until all is sent or something is in the way; gives the wait until the next.</summary>
    private async Task<TimeSpan> PassAsync(BatchSender sender, CancellationToken cancel)
    {
        try
        {
            using var reader = _store.OpenReader();
            var place = _place ??= ForwardTable.Place(reader, _options.Server) ?? Start(reader);
            var page = StorePage.Read(reader, place, _points, _options.Batch);
            while (page.Lines.Count > 0)
            {
                Pulse.Tick();
                var result = await sender.SendAsync(page.Lines, cancel);
                Count(result);
                if (result.Stopped is { } stopped)
                {
                    return Trouble(stopped, reader.CountAfter(place.Readings, MostCounted));
                }

                await KeepRefusedAsync(result.Refused, page.Next, cancel);
                _place = place = page.Next;
                Headway();
                await SaveIfDueAsync(SaveEvery, cancel);
                page = StorePage.Read(reader, place, _points, _options.Batch);
            }

            _place = page.Next;
            CaughtUp();
            return _options.Every;
        }
        catch (StoreUnavailableException caught)
        {
            return Trouble(new(WriteReplyKind.Away, $"the store here cannot be used: {caught.Message.TrimEnd('.')}"), State.Waiting);
        }
    }

    private ForwardPlace Start(StoreReader reader) =>
        _options.History is { } history ? StorePage.At(reader, _time.GetUtcNow() - history) : ForwardPlace.Beginning;

    private async Task KeepRefusedAsync(IReadOnlyList<(string Line, string Reason)> points, ForwardPlace next, CancellationToken cancel)
    {
        if (points.Count == 0)
        {
            return;
        }

        var now = _time.GetUtcNow();
        await _store.WriteAsync(
            transaction =>
            {
                foreach (var (line, reason) in points.TakeLast(ForwardTable.MostRefused))
                {
                    ForwardTable.AddRefused(transaction, _options.Server, new(now, reason, line));
                }

                ForwardTable.Save(transaction, _options.Server, next);
            },
            cancel);
        NoteSaved(next);
        Volatile.Write(ref _state, State with { Refused = State.Refused + points.Count });
        Log.PointsRefused(_log, points.Count, _options.Url.Host, points[0].Reason, points[0].Line);
    }

    private async Task SaveIfDueAsync(TimeSpan age, CancellationToken cancel)
    {
        if (_place is not { } place || place == _saved || _time.GetElapsedTime(_savedAt) < age)
        {
            return;
        }

        try
        {
            await _store.WriteAsync(transaction => ForwardTable.Save(transaction, _options.Server, place), cancel);
            NoteSaved(place);
        }
        catch (StoreUnavailableException)
        {
            // The store says so by an alarm of its own; the same points are sent again after a restart.
            _savedAt = _time.GetTimestamp();
        }
    }

    private void NoteSaved(ForwardPlace place)
    {
        _saved = place;
        _savedAt = _time.GetTimestamp();
    }

    private TimeSpan Trouble(WriteReply reply, long waiting)
    {
        if (State.Trouble != reply.Reason)
        {
            Log.Waits(_log, _options.Url.Host, reply.Reason, waiting);
        }

        Volatile.Write(ref _state, State with { Trouble = reply.Reason, NeedsPerson = reply.Kind == WriteReplyKind.Refused, Waiting = waiting });
        var wait = _backoff.Next();
        var asked = reply.RetryAfter is { } told && told < LongestAsked ? told : reply.RetryAfter is null ? TimeSpan.Zero : LongestAsked;
        return asked > wait ? asked : wait;
    }

    private void Count(BatchResult result)
    {
        if (result.Accepted > 0)
        {
            Volatile.Write(ref _state, State with { Sent = State.Sent + result.Accepted });
        }
    }

    private void Headway()
    {
        if (State.Trouble is not null)
        {
            Log.Resumed(_log, _options.Url.Host, State.Waiting);
        }

        _backoff.Reset();
        Volatile.Write(ref _headwayAt, _time.GetTimestamp());
        Volatile.Write(ref _state, State with { Trouble = null, NeedsPerson = false, Waiting = Math.Max(0, State.Waiting - _options.Batch) });
    }

    private void CaughtUp()
    {
        Headway();
        Volatile.Write(ref _caughtUpAt, _time.GetTimestamp());
        Volatile.Write(ref _state, State with { Waiting = 0 });
    }

    private DaemonSignal Signal(ForwarderState state)
    {
        var idle = _time.GetElapsedTime(Volatile.Read(ref _headwayAt));
        var behind = _time.GetElapsedTime(Volatile.Read(ref _caughtUpAt));
        var (server, waiting) = ($"The database server {_options.Url.Host}", state.Waiting >= MostCounted ? $"more than {MostCounted}" : $"{state.Waiting}");
        return state switch
        {
            { NeedsPerson: true } => ServerBehindAlarm.Signal(true, $"{server} refuses the copy of the readings: {state.Trouble}. {waiting} readings wait here."),
            { Trouble: { } reason } when idle >= _options.AlarmAfter =>
                ServerBehindAlarm.Signal(true, $"{server} has taken nothing for {DisplayUnits.Duration(idle)}: {reason}. {waiting} readings wait here."),
            _ when behind >= LongestCatchUp => ServerBehindAlarm.Signal(true, $"{server} is still behind after {DisplayUnits.Duration(behind)}. {waiting} readings wait here."),
            { Trouble: null } => ServerBehindAlarm.Signal(false, $"{server} takes the readings again."),
            _ => ServerBehindAlarm.Signal(null, $"{server} does not answer just now: {state.Trouble}."),
        };
    }
}

/// <summary>How the copy on the server stands.</summary>
/// <param name="Trouble">Why the server does not get anything just now, as a clause; null while it does.</param>
/// <param name="NeedsPerson">The server refuses what is sent, which does not pass by itself.</param>
/// <param name="Waiting">Readings that are stored and not yet with the server; counted up to <see cref="InfluxForwarder.MostCounted"/>.</param>
/// <param name="Sent">Points the server has taken since the start.</param>
/// <param name="Refused">Points it refused for good since the start.</param>
public sealed record ForwarderState(string? Trouble, bool NeedsPerson, long Waiting, long Sent, long Refused)
{
    /// <summary>At the start.</summary>
    public static ForwarderState Beginning { get; } = new(null, false, 0, 0, 0);
}
