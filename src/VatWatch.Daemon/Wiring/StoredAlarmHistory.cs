using VatWatch.Alarms.Figures;
using VatWatch.Alarms.Journal;
using VatWatch.Alarms;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>The alarm journal in the store. Figures of weeks are kept for a minute, because a page that looks after itself asks every few seconds.</summary>
internal sealed class StoredAlarmHistory(WatchStore store, TimeProvider time) : IAlarmHistory
{
    private static readonly TimeSpan WeeksHold = TimeSpan.FromMinutes(1);

    private volatile Worked? _worked;

    public Task<IReadOnlyList<AlarmChange>> ReadAsync(VatId? vat, DateTimeOffset? before, int count, CancellationToken cancel) => Task.Run(
        () =>
        {
            using var reader = store.OpenReader();
            return AlarmJournal.Newest(reader, vat, before, count);
        },
        cancel);

    public Task<IReadOnlyList<AlarmWeek>> WeeksAsync(DateTimeOffset now, int count, CancellationToken cancel) => Task.Run(
        () =>
        {
            if (_worked is not { } worked || worked.Weeks.Count != count || time.GetElapsedTime(worked.At) >= WeeksHold)
            {
                using var reader = store.OpenReader();
                _worked = worked = new(time.GetTimestamp(), AlarmWeeks.Read(reader, now, count));
            }

            return worked.Weeks;
        },
        cancel);

    private sealed record Worked(long At, IReadOnlyList<AlarmWeek> Weeks);
}
