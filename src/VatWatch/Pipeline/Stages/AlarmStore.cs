using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>Puts alarm changes, what people are told of them, and who is still to be told on the disk in one transaction.</summary>
internal interface IAlarmStore
{
    /// <summary>Completes when all are on the disk; throws <see cref="StoreUnavailableException"/> when they are not.</summary>
    Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> messages, IReadOnlyList<ContactEscalations> escalations, CancellationToken cancel);
}

/// <summary>The journal, the outbox and the escalations of contacts in the SQLite store.</summary>
internal sealed class AlarmStore(WatchStore store) : IAlarmStore
{
    public Task AppendAsync(
        IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> messages, IReadOnlyList<ContactEscalations> escalations, CancellationToken cancel) => store.WriteAsync(
        work =>
        {
            foreach (var change in changes)
            {
                AlarmJournal.Append(work, change);
            }

            foreach (var message in messages)
            {
                OutboxTable.Add(work, message.Notification, message.Contact);
            }

            foreach (var kept in escalations)
            {
                EscalationTable.Replace(work, kept.Contact, kept.Escalations);
            }
        },
        cancel);
}
