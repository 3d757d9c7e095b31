using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>The journal, the outbox and the calls of contacts in the SQLite store.</summary>
internal sealed class AlarmStore(WatchStore store) : IAlarmStore
{
    public Task AppendAsync(
        IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> tellings, IReadOnlyList<ContactEscalations> calls, CancellationToken cancel) => store.WriteAsync(
        work =>
        {
            foreach (var change in changes)
            {
                AlarmJournal.Append(work, change);
            }

            foreach (var telling in tellings)
            {
                OutboxTable.Add(work, telling.Notification, telling.Contact);
            }

            foreach (var kept in calls)
            {
                EscalationTable.Replace(work, kept.Contact, kept.Calls);
            }

            return changes.Count;
        },
        cancel);
}
