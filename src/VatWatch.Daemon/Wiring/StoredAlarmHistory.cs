using VatWatch.Alarms;
using VatWatch.Daemon.Web;
using VatWatch.Store;
using VatWatch.Vats;

namespace VatWatch.Daemon.Wiring;

/// <summary>The alarm journal in the store.</summary>
internal sealed class StoredAlarmHistory(WatchStore store) : IAlarmHistory
{
    public Task<IReadOnlyList<AlarmChange>> ReadAsync(VatId? vat, DateTimeOffset? before, int count, CancellationToken cancel) => Task.Run<IReadOnlyList<AlarmChange>>(
        () =>
        {
            using var reader = store.OpenReader();
            return [.. AlarmJournal.Changes(reader, vat, DateTimeOffset.MinValue, before ?? DateTimeOffset.MaxValue).Reverse().Take(count)];
        },
        cancel);
}
