using System.Collections.Concurrent;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Keeps what was learned: writes the learned heat of each vat to the store, so that the next run begins with it, and works out the baseline of each vat from
/// the sessions marked as good, whenever the log book changes.
/// </summary>
internal sealed class LearningRecorder(
    WatchStore store,
    IReadOnlyList<VatDefinition> vats,
    LearnedHeatCache cache,
    Action<VatId, GoodBaseline?> baseline,
    TimeProvider time)
{
    /// <summary>A kill costs at most this much of learning; a write is a few hundred bytes.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(10);

    /// <summary>Older days say less of the vat as it is now.</summary>
    private const int Sessions = 12;

    /// <summary>Readings taken of one session: ten hours of minutes.</summary>
    private const int ReadingsOfOne = 600;

    private readonly Dictionary<VatId, LearnedHeat> _kept = [];
    private readonly Dictionary<VatId, string> _goodDays = [];
    private long _written = time.GetTimestamp();
    private int _isStale = 1;

    /// <summary>The log book has changed; never waits.</summary>
    public void LogBookChanged() => Interlocked.Exchange(ref _isStale, 1);

    /// <summary>Looks whether the log book has changed, and writes what was learned when it is time.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be used; what was known before stays.</exception>
    public async Task RunOnceAsync(CancellationToken cancel)
    {
        if (Interlocked.Exchange(ref _isStale, 0) == 1)
        {
            LookForBaselines();
        }

        if (time.GetElapsedTime(_written) >= Period)
        {
            _written = time.GetTimestamp();
            await KeepAsync(cancel);
        }
    }

    /// <summary>Writes what was learned since the last time.</summary>
    public async Task KeepAsync(CancellationToken cancel)
    {
        var changed = cache.Newest.Where(newest => _kept.GetValueOrDefault(newest.Key) != newest.Value).ToList();
        if (changed.Count == 0)
        {
            return;
        }

        var utc = time.GetUtcNow();
        await store.WriteAsync(work => changed.ForEach(one => LearnedHeatTable.Keep(work, one.Key, utc, one.Value)), cancel);
        changed.ForEach(one => _kept[one.Key] = one.Value);
    }

    private void LookForBaselines()
    {
        try
        {
            using var reader = store.OpenReader();
            foreach (var vat in vats)
            {
                Evaluate(reader, vat);
            }
        }
        catch (StoreUnavailableException)
        {
            LogBookChanged();
            throw;
        }
    }

    private void Evaluate(StoreReader reader, VatDefinition vat)
    {
        List<Session> good = [.. SessionTable.Newest(reader, vat.Id, Sessions, Verdict.Good).Where(session => session.Ended is not null)];
        var days = string.Join(' ', good.Select(session => session.Id));
        if (_goodDays.GetValueOrDefault(vat.Id) != days)
        {
            _goodDays[vat.Id] = days;
            baseline(vat.Id, BaselineOf(reader, vat, good));
        }
    }

    private static GoodBaseline? BaselineOf(StoreReader reader, VatDefinition vat, IEnumerable<Session> good)
    {
        var readings = new List<GoodReading>();
        foreach (var session in good)
        {
            var measurements = reader.Measurements(vat.Id, session.Started.Utc, session.Ended!.Value);
            readings.AddRange(GoodDays.Readings(vat, measurements, EntryTable.Of(reader, vat.Id, session.Id)).Take(ReadingsOfOne));
        }

        return GoodBaseline.Of(readings);
    }
}

/// <summary>The newest of what was learned of each vat's heat, on its way from the watch to the disk. Thread safe.</summary>
internal sealed class LearnedHeatCache
{
    private readonly ConcurrentDictionary<VatId, LearnedHeat> _newest = new();

    public void Put(VatId vat, LearnedHeat learned) => _newest[vat] = learned;

    public IReadOnlyCollection<KeyValuePair<VatId, LearnedHeat>> Newest => [.. _newest];
}
