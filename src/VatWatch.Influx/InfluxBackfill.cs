using VatWatch.Alarms.Journal;
using VatWatch.Conditions.Stored;
using VatWatch.Store;

namespace VatWatch.Influx;

/// <summary>
/// Sends a stretch of history again. It only reads the store, so a daemon may run beside it; a point that the server has already is the same
/// point and changes nothing there.
/// </summary>
public sealed class InfluxBackfill(InfluxOptions options, string site, DisplayUnits units, TimeProvider time)
{
    /// <summary>How long the server may take nothing before this gives up.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    private readonly PointLines _points = new(site, units);
    private long _sent;
    private long _refused;
    private (string, string)? _firstRefused;

    /// <summary>Sends what has a label from <paramref name="from"/> up to, not including, <paramref name="to"/>.</summary>
    /// <param name="from">Start, UTC.</param>
    /// <param name="to">End, UTC.</param>
    /// <param name="progress">Told after each batch: points sent, and the label that was reached.</param>
    public async Task<BackfillResult> RunAsync(
        StoreReader reader, DateTimeOffset from, DateTimeOffset to, Action<long, DateTimeOffset> progress, CancellationToken cancel)
    {
        using var link = new InfluxLink(options, time);
        var sender = new BatchSender(link);
        var reached = from;
        foreach (var (lines, until) in Alarms(reader, from, to).Concat(Conditions(reader, from, to)).Concat(Readings(reader, from, to)))
        {
            if (await SendAsync(sender, lines, cancel) is { } failure)
            {
                return new(_sent, _refused, _firstRefused, failure, reached);
            }

            reached = until ?? reached;
            progress(_sent, reached);
        }

        return new(_sent, _refused, _firstRefused, null, to);
    }

    private async Task<string?> SendAsync(BatchSender sender, IReadOnlyList<string> lines, CancellationToken cancel)
    {
        var backoff = new Backoff(options.Waits.First, options.Waits.Longest, Random.Shared.NextDouble);
        var began = time.GetTimestamp();
        while (true)
        {
            var result = await sender.SendAsync(lines, cancel);
            if (result.Stopped is not { } stopped)
            {
                _sent += result.Accepted;
                _refused += result.Refused.Count;
                _firstRefused ??= result.Refused.Count > 0 ? result.Refused[0] : null;
                return null;
            }

            var wait = stopped.RetryAfter is { } asked ? asked : backoff.Next();
            if (stopped.Kind == WriteReplyKind.Refused || time.GetElapsedTime(began) + wait > Patience)
            {
                return stopped.Reason;
            }

            await Task.Delay(wait, time, cancel);
        }
    }

    private IEnumerable<(IReadOnlyList<string> Lines, DateTimeOffset? Until)> Alarms(StoreReader reader, DateTimeOffset from, DateTimeOffset to)
    {
        var id = AlarmJournal.Before(reader, from);
        while (AlarmJournal.After(reader, id, options.Batch) is { Count: > 0 } rows)
        {
            id = rows[^1].Id;
            yield return ([.. rows.Where(row => row.Change.Stamp.Utc >= from && row.Change.Stamp.Utc < to).Select(_points.Of)], null);
        }
    }

    private IEnumerable<(IReadOnlyList<string> Lines, DateTimeOffset? Until)> Conditions(StoreReader reader, DateTimeOffset from, DateTimeOffset to)
    {
        var id = ConditionTable.Before(reader, from);
        while (ConditionTable.After(reader, id, options.Batch) is { Count: > 0 } rows)
        {
            id = rows[^1].Id;
            yield return ([.. rows.Where(row => row.Utc >= from && row.Utc < to).Select(_points.Of)], null);
        }
    }

    private IEnumerable<(IReadOnlyList<string> Lines, DateTimeOffset? Until)> Readings(StoreReader reader, DateTimeOffset from, DateTimeOffset to)
    {
        var cursor = reader.CursorAt(from);
        while (reader.RowsAfter(cursor, options.Batch) is { Rows.Count: > 0 } page)
        {
            cursor = page.Next;
            var wanted = page.Rows.Where(row => row.Measurement.Stamp.Utc >= from && row.Measurement.Stamp.Utc < to).ToList();
            if (wanted.Count > 0)
            {
                yield return ([.. wanted.Select(_points.Of)], wanted[^1].Measurement.Stamp.Utc);
            }

            if (page.Rows[^1].Measurement.Stamp.Utc >= to)
            {
                yield break;
            }
        }
    }
}

/// <summary>What came of sending history again.</summary>
/// <param name="Sent">Points the server has taken.</param>
/// <param name="Refused">Points it refuses.</param>
/// <param name="FirstRefused">The first of them, with the server's reason; null when there are none.</param>
/// <param name="Failure">Why it ended early, as a clause; null when it did not.</param>
/// <param name="Reached">Everything with a label before this is with the server.</param>
public sealed record BackfillResult(long Sent, long Refused, (string Line, string Reason)? FirstRefused, string? Failure, DateTimeOffset Reached);
