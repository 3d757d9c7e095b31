using Microsoft.Extensions.Logging;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Pipeline.Supervision;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Keeps what was learned: writes the learned heat of each vat to the store, so that the next run begins with it, and works out the baseline of each vat from
/// the sessions marked as good, whenever the log book changes.
/// </summary>
internal sealed class LearningStage(
    WatchStore store,
    IReadOnlyList<VatDefinition> vats,
    LearnedHeatCache shelf,
    Action<VatId, GoodBaseline?> baseline,
    TimeProvider time,
    ILogger<LearningStage> log) : IStage
{
    /// <summary>A kill costs at most this much of learning; a write is a few hundred bytes.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(10);

    /// <summary>How often it is looked whether the log book has changed.</summary>
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan LastWrite = TimeSpan.FromSeconds(2);

    /// <summary>Older days say less of the vat as it is now.</summary>
    private const int Sessions = 12;

    /// <summary>Readings taken of one session: ten hours of minutes.</summary>
    private const int ReadingsOfOne = 600;

    private readonly Dictionary<VatId, LearnedHeat> _kept = [];
    private readonly Dictionary<VatId, string> _goodDays = [];
    private int _isStale = 1;

    public string Name => "learning";

    /// <summary>Long, because it waits for the disk.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(5), time);

    /// <summary>The log book has changed; never waits.</summary>
    public void LogBookChanged() => Interlocked.Exchange(ref _isStale, 1);

    public async Task RunAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(Beat, time);
        var written = time.GetTimestamp();
        try
        {
            do
            {
                Pulse.Tick();
                if (Interlocked.Exchange(ref _isStale, 0) == 1)
                {
                    LookForBaselines();
                }

                if (time.GetElapsedTime(written) >= Period)
                {
                    written = time.GetTimestamp();
                    await KeepAsync(cancel);
                }
            }
            while (await timer.WaitForNextTickAsync(cancel));
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            using var limit = new CancellationTokenSource(LastWrite, time);
            await KeepAsync(limit.Token);
            throw;
        }
    }

    private async Task KeepAsync(CancellationToken cancel)
    {
        var changed = shelf.Newest.Where(newest => _kept.GetValueOrDefault(newest.Key) != newest.Value).ToList();
        if (changed.Count == 0)
        {
            return;
        }

        try
        {
            var utc = time.GetUtcNow();
            await store.WriteAsync(
                work =>
                {
                    changed.ForEach(one => LearnedHeatTable.Keep(work, one.Key, utc, one.Value));
                    return changed.Count;
                },
                cancel);
            changed.ForEach(one => _kept[one.Key] = one.Value);
        }
        catch (StoreUnavailableException caught)
        {
            Log.LearnedNotKept(log, caught.Message);
        }
        catch (OperationCanceledException)
        {
            Log.LearnedNotKept(log, "it took too long");
        }
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
        catch (StoreUnavailableException caught)
        {
            LogBookChanged();
            Log.BaselineUnread(log, caught.Message);
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
