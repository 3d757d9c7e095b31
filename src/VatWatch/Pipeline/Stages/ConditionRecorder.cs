using System.Threading.Channels;
using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Keeps the conditions of vats in the store: each change of state, and otherwise what has changed, at most once a minute of the vat's time.
/// Several are written together, because each commit wears the card.
/// </summary>
internal sealed class ConditionRecorder
{
    /// <summary>Conditions waiting for the disk; two hours of a hundred vats. Past this the oldest is dropped and counted.</summary>
    private const int QueueBound = 12_000;

    private static readonly TimeSpan Apart = TimeSpan.FromMinutes(1);

    private readonly WatchStore _store;
    private readonly TimeSpan _keep;
    private readonly Dictionary<VatId, VatCondition> _kept = [];
    private readonly List<VatCondition> _waiting = [];
    private readonly Channel<VatCondition> _queue;
    private long _dropped;

    /// <summary>Keeps conditions for <paramref name="keep"/> in <paramref name="store"/>.</summary>
    public ConditionRecorder(WatchStore store, TimeSpan keep)
    {
        _store = store;
        _keep = keep;
        _queue = Channel.CreateBounded<VatCondition>(
            new BoundedChannelOptions(QueueBound) { FullMode = BoundedChannelFullMode.DropOldest, SingleReader = true },
            _ => Interlocked.Increment(ref _dropped));
    }

    /// <summary>Conditions lost because the disk was away for too long.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    /// <summary>Takes the newest condition of a vat; never waits. For the watch stage's thread only.</summary>
    public void Enqueue(VatCondition condition)
    {
        if (!_kept.TryGetValue(condition.Vat, out var before) || IsDue(before, condition))
        {
            _kept[condition.Vat] = condition;
            _queue.Writer.TryWrite(condition);
        }
    }

    /// <summary>Writes what waits in one transaction.</summary>
    /// <exception cref="StoreUnavailableException">It waits on.</exception>
    public async Task WriteAsync(CancellationToken cancel)
    {
        while (_waiting.Count < QueueBound && _queue.Reader.TryRead(out var condition))
        {
            _waiting.Add(condition);
        }

        if (_waiting.Count > 0)
        {
            await _store.WriteAsync(transaction => ConditionTable.Append(transaction, _waiting, _keep), cancel);
            _waiting.Clear();
        }
    }

    private static bool IsDue(VatCondition before, VatCondition now) =>
        before.State != now.State || (now.Stamp.Since(before.Stamp) >= Apart && !LooksAlike(before, now));

    /// <summary>Whether a chart or a sentence would show the same. The steps are those of the pages: 0.1 K, 0.01 pH, 1 mV.</summary>
    private static bool LooksAlike(VatCondition a, VatCondition b) =>
        Nullable.Equals(Step(a.TemperatureC, 1), Step(b.TemperatureC, 1))
        && Nullable.Equals(Step(a.Ph, 2), Step(b.Ph, 2))
        && Nullable.Equals(Step(a.OrpMillivolts, 0), Step(b.OrpMillivolts, 0))
        && a.Reasons.SequenceEqual(b.Reasons);

    private static double? Step(double? value, int decimals) => value is { } number ? Math.Round(number, decimals) : null;
}
