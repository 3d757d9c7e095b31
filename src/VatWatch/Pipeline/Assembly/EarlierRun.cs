using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Stages;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>Gives a new run what the run before it left in the store.</summary>
internal static class EarlierRun
{
    /// <summary>A heater that was switched on longer ago has nothing to do with this night.</summary>
    private static readonly TimeSpan LongestWarmUp = TimeSpan.FromHours(24);

    /// <summary>Takes up alarms, what was learned of each vat, a begun warm-up, and what was still to be told.</summary>
    public static void Restore(
        WatchStore store, IReadOnlyList<VatWatcher> watchers, DaemonWatcher daemon, LiveFeed feed, MqttLink link, NotificationRouter router, Stamp now)
    {
        using var reader = OpenReader(store);
        var kept = (reader is null ? [] : AlarmJournal.Current(reader, now)).ToLookup(status => status.Vat);
        var learned = reader is null ? new Dictionary<VatId, LearnedHeat>() : LearnedHeatTable.All(reader);
        foreach (var watcher in watchers)
        {
            watcher.Restore(kept[watcher.Vat.Id], now);
            if (learned.TryGetValue(watcher.Vat.Id, out var heat))
            {
                watcher.Restore(heat);
            }

            if (reader is not null && WarmUpBegun(reader, watcher.Vat, now) is { } begun)
            {
                watcher.Note(begun);
            }

            foreach (var status in watcher.Alarms)
            {
                feed.Show(status);
                link.Enqueue(status);
            }
        }

        daemon.Restore(kept[VatId.Daemon], new Stamp(TimeProvider.System.GetUtcNow(), TimeSpan.Zero, true));
        foreach (var status in daemon.Alarms)
        {
            feed.Show(status);
            link.Enqueue(status);
        }

        if (reader is not null)
        {
            router.Restore(reader, [.. watchers.SelectMany(watcher => watcher.Alarms), .. daemon.Alarms], now);
        }
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
    private static StoreReader? OpenReader(WatchStore store)
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
}
