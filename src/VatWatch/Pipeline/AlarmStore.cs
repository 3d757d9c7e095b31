using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>The journal and the outbox in the SQLite store.</summary>
internal sealed class AlarmStore(WatchStore store, IReadOnlyList<string> channels) : IAlarmStore
{
    public Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Notification> notifications, CancellationToken cancel) => store.WriteAsync(
        work =>
        {
            foreach (var change in changes)
            {
                AlarmJournal.Append(work, change);
            }

            foreach (var note in notifications)
            {
                foreach (var channel in channels)
                {
                    Outbox.Add(work, note.Vat, note.Alarm, note.Priority, note.Created, note.Sentence, channel);
                }
            }

            return changes.Count;
        },
        cancel);
}
