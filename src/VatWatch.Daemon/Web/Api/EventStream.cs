using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Security;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Api;

/// <summary>
/// The live feed as server-sent events (WHATWG HTML §9.2): <c>measurement</c>, <c>condition</c>, <c>alarm</c>, <c>session</c>, and <c>lagged</c> when this
/// follower was too slow. A comment line every 15 s shows that the line is alive. Bounded in followers and in events per follower; ends with the follower's session.
/// </summary>
internal sealed class EventStream(ILiveFeed feed, SiteFacts site, WebOptions options, EndedSessions ended, TimeProvider time, IHostApplicationLifetime lifetime)
{
    /// <summary>Followers at one time; a browser tab is one.</summary>
    public const int MostFollowers = 48;

    /// <summary>Of these viewers, where passwords are set: the rest is kept for operators.</summary>
    public const int MostViewers = 24;

    /// <summary>Of one session, or of one address that comes without a session, where passwords are set.</summary>
    public const int MostOfOne = 8;

    /// <summary>Pause after which an idle line gets a comment: shorter than the minute at which proxies commonly hang up.</summary>
    public static readonly TimeSpan Heartbeat = TimeSpan.FromSeconds(15);

    private const int EventsPerFollower = 256;
    private readonly Lock _lock = new();
    private readonly Dictionary<string, int> _of = new(StringComparer.Ordinal);
    private int _viewers;
    private int _followers;
    private long _lost;

    /// <summary>Followers now.</summary>
    public int Followers => Volatile.Read(ref _followers);

    /// <summary>Events lost by slow followers that have gone, since the start.</summary>
    public long Lost => Interlocked.Read(ref _lost);

    /// <summary>Answers one follower until it hangs up or the daemon stops.</summary>
    public async Task FollowAsync(HttpContext context)
    {
        var visitor = Visitor.Of(context) ?? Visitor.Anybody;
        var one = visitor.Session ?? KnownAddresses.PlaceOf(context.Connection.RemoteIpAddress).ToString();
        if (!TryTake(visitor, one, out var full))
        {
            context.Response.Headers.RetryAfter = "30";
            await Problems.WriteAsync(context, StatusCodes.Status503ServiceUnavailable, $"{full}, which is the most; try again later.");
            return;
        }

        using var ends = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, lifetime.ApplicationStopping);
        using var subscription = feed.Subscribe(EventsPerFollower);
        try
        {
            context.Response.ContentType = "text/event-stream";
            context.Response.Headers.CacheControl = "no-store";
            context.Response.Headers["X-Accel-Buffering"] = "no";
            await WriteAsync(context, ": VatWatch\nretry: 3000\n\n"u8.ToArray(), ends.Token);
            await PumpAsync(context, visitor.Session, subscription, ends.Token);
        }
        catch (OperationCanceledException)
        {
            // The follower hung up or the daemon stops; either way there is nobody to tell.
        }
        finally
        {
            Interlocked.Add(ref _lost, subscription.Dropped);
            GiveBack(visitor, one);
        }
    }

    // Where no password is set nobody can be told from anybody, and the local socket is its owner's.
    private bool TryTake(Visitor visitor, string one, out string full)
    {
        var isBounded = options.IsGuarded && !visitor.IsLocal;
        lock (_lock)
        {
            full = _followers >= MostFollowers ? $"{MostFollowers} followers are connected"
                : isBounded && _of.GetValueOrDefault(one) >= MostOfOne ? $"You have {MostOfOne} pages or programs that follow"
                : isBounded && visitor.Role == Role.Viewer && _viewers >= MostViewers ? $"{MostViewers} viewers are connected"
                : "";
            if (full.Length > 0)
            {
                return false;
            }

            _of[one] = _of.GetValueOrDefault(one) + 1;
            _viewers += visitor.Role == Role.Viewer ? 1 : 0;
            _followers++;
            return true;
        }
    }

    private void GiveBack(Visitor visitor, string one)
    {
        lock (_lock)
        {
            _followers--;
            _viewers -= visitor.Role == Role.Viewer ? 1 : 0;
            if (--_of[one] == 0)
            {
                _of.Remove(one);
            }
        }
    }

    private async Task PumpAsync(HttpContext context, string? session, ILiveSubscription subscription, CancellationToken cancel)
    {
        var told = 0L;
        var more = subscription.Events.WaitToReadAsync(cancel).AsTask();
        while (true)
        {
            var happens = await HappensAsync(more, cancel);
            if (session is not null && ended.Contains(session))
            {
                return;
            }

            if (!happens)
            {
                await WriteAsync(context, ": still here\n\n"u8.ToArray(), cancel);
                continue;
            }

            if (!await more)
            {
                return;
            }

            using var batch = new MemoryStream();
            while (batch.Length < 64 * 1024 && subscription.Events.TryRead(out var one))
            {
                Add(batch, one);
            }

            if (subscription.Dropped != told)
            {
                told = subscription.Dropped;
                Add(batch, "lagged", JsonSerializer.SerializeToUtf8Bytes(new LaggedReply(told), ApiJson.Default.LaggedReply));
            }

            await WriteAsync(context, batch.ToArray(), cancel);
            more = subscription.Events.WaitToReadAsync(cancel).AsTask();
        }
    }

    private async Task<bool> HappensAsync(Task<bool> more, CancellationToken cancel)
    {
        if (more.IsCompleted)
        {
            return true;
        }

        using var stopWaiting = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        var pause = Task.Delay(Heartbeat, time, stopWaiting.Token);
        var first = await Task.WhenAny(more, pause);
        await stopWaiting.CancelAsync();
        return first == more;
    }

    private void Add(MemoryStream batch, object one)
    {
        switch (one)
        {
            case Measurement measurement:
                Add(batch, "measurement", JsonSerializer.SerializeToUtf8Bytes(MeasurementReply.Of(measurement, feed.Clock.Now()), ApiJson.Default.MeasurementReply));
                break;
            case VatCondition condition:
                Add(batch, "condition", JsonSerializer.SerializeToUtf8Bytes(ConditionDocument.Of(condition), ApiJson.Default.ConditionDocument));
                break;
            case AlarmStatus alarm:
                Add(batch, "alarm", JsonSerializer.SerializeToUtf8Bytes(AlarmDocument.Of(alarm, site.Units), ApiJson.Default.AlarmDocument));
                break;
            case SessionChange session:
                Add(batch, "session", JsonSerializer.SerializeToUtf8Bytes(new SessionChangeReply(session.Vat.Value), ApiJson.Default.SessionChangeReply));
                break;
            default:
                break;
        }
    }

    private static void Add(MemoryStream batch, string name, byte[] json)
    {
        batch.Write(System.Text.Encoding.ASCII.GetBytes($"event: {name}\ndata: "));
        batch.Write(json);
        batch.Write("\n\n"u8);
    }

    private static async Task WriteAsync(HttpContext context, byte[] bytes, CancellationToken cancel)
    {
        await context.Response.Body.WriteAsync(bytes, cancel);
        await context.Response.Body.FlushAsync(cancel);
    }
}

/// <summary>Tells a follower of the event stream that it was too slow.</summary>
/// <param name="Lost">Events it has lost since it began to follow.</param>
internal sealed record LaggedReply(long Lost);

/// <summary>Tells a follower of the event stream that the log book of a vat has changed.</summary>
internal sealed record SessionChangeReply(string Vat);
