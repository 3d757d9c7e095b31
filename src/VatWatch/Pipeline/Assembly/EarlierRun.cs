using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Pipeline.Stages;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>Gives a new run what the run before it left in the store.</summary>
/// <param name="open">Opens the store; null while it cannot be read.</param>
/// <param name="show">Shows an alarm to people and topics.</param>
/// <param name="isSimulation">Whether the vats' time is a fast simulation's, which begins anew with each start as its vats do.</param>
internal sealed class EarlierRun(Func<StoreReader?> open, IReadOnlyList<VatWatcher> watchers, DaemonWatcher daemon, Action<AlarmStatus> show, bool isSimulation)
{
    /// <summary>A heater that was switched on longer ago has nothing to do with this night.</summary>
    private static readonly TimeSpan LongestWarmUp = TimeSpan.FromHours(24);

    /// <summary>Whether it is taken up; false while the store cannot be read.</summary>
    public bool IsTakenUp { get; private set; }

    /// <summary>Takes up alarms, what was learned of each vat, a begun warm-up, and what was still to be told. Before the watch begins.</summary>
    public void Restore(NotificationRouter router, Stamp now)
    {
        using (var reader = open())
        {
            if (reader is not null)
            {
                Take(Read(reader, now), now);
                router.Restore(reader, [.. watchers.SelectMany(watcher => watcher.Alarms), .. daemon.Alarms], now);
                IsTakenUp = true;
            }
        }

        foreach (var status in watchers.SelectMany(watcher => watcher.Alarms).Concat(daemon.Alarms))
        {
            show(status);
        }
    }

    /// <summary>
    /// Takes up while the watch runs what could not be read at its start: alarms that this run has not raised itself, what was learned, begun warm-ups. What waits in the outbox
    /// goes out by itself; alarms that nobody has acknowledged are told by their reminders.
    /// </summary>
    /// <param name="inTurn">Runs something in turn with the readings.</param>
    public void RestoreLate(Action<Action> inTurn, WatchClock clock)
    {
        if (IsTakenUp || open() is not { } opened)
        {
            return;
        }

        using var reader = opened;
        var now = clock.Now();
        var left = Read(reader, now);
        IsTakenUp = true;
        inTurn(() =>
        {
            Take(left, clock.Now());
            var known = left.Alarms.SelectMany(alarms => alarms).Select(status => (status.Vat, status.Alarm)).ToHashSet();
            foreach (var status in watchers.SelectMany(watcher => watcher.Alarms).Concat(daemon.Alarms).Where(status => known.Contains((status.Vat, status.Alarm))))
            {
                show(status);
            }
        });
    }

    private Left Read(StoreReader reader, Stamp now) => new(
        AlarmJournal.Current(reader, now).ToLookup(status => status.Vat),
        LearnedHeatTable.All(reader),
        watchers.Select(watcher => (watcher.Vat.Id, Act: WarmUpBegun(reader, watcher.Vat, now))).Where(begun => begun.Act is not null).ToDictionary(begun => begun.Id, begun => begun.Act!));

    private void Take(Left left, Stamp now)
    {
        foreach (var watcher in watchers)
        {
            if (isSimulation)
            {
                watcher.BeginAnew(left.Alarms[watcher.Vat.Id], now);
            }
            else
            {
                watcher.Restore(left.Alarms[watcher.Vat.Id], now);
            }

            if (left.Learned.TryGetValue(watcher.Vat.Id, out var heat))
            {
                watcher.Restore(heat);
            }

            if (left.WarmUps.TryGetValue(watcher.Vat.Id, out var begun))
            {
                watcher.Note(begun);
            }
        }

        daemon.Restore(left.Alarms[VatId.Daemon], new Stamp(TimeProvider.System.GetUtcNow(), TimeSpan.Zero, true));
    }

    /// <summary>Calibrations that cannot be read now are tried again in their turn.</summary>
    public static void Load(CalibrationLoader calibrations, WatchStore store)
    {
        try
        {
            calibrations.Load();
        }
        catch (StoreUnavailableException) when (!store.Health.Ok)
        {
            return;
        }
    }

    /// <summary>What the disk can still give when it took nothing at the start; null when that is nothing: the watch then begins without its past.</summary>
    public static StoreReader? OpenReader(WatchStore store)
    {
        try
        {
            return store.OpenReader();
        }
        catch (StoreUnavailableException) when (!store.Health.Ok)
        {
            return null;
        }
    }

    /// <summary>The warm-up that an earlier run left, told in this run's monotonic time; null when none was begun, or the liquor has been warm since.</summary>
    private static VatAct? WarmUpBegun(StoreReader reader, VatDefinition vat, Stamp now)
    {
        var from = now.Utc - LongestWarmUp;
        if (EntryTable.Newest(reader, vat.Id, from, EntryKind.HeaterOn, EntryKind.HeaterOff) is not { Kind: EntryKind.HeaterOn } entry || entry.At.Utc > now.Utc)
        {
            return null;
        }

        var hasBeenWarm = vat.Probes.Where(probe => probe.Quantity == Quantity.Temperature)
            .Any(probe => reader.Columns(vat.Id, probe.Id, entry.At.Utc, now.Utc, 1, LongestWarmUp).Any(column => column.Max >= vat.Temperature.LowC));
        return hasBeenWarm ? null : entry.Act()! with { At = new Stamp(entry.At.Utc, now.Monotonic - (now.Utc - entry.At.Utc), entry.At.UtcTrusted) };
    }

    private sealed record Left(ILookup<VatId, AlarmStatus> Alarms, IReadOnlyDictionary<VatId, LearnedHeat> Learned, IReadOnlyDictionary<VatId, VatAct> WarmUps);
}
