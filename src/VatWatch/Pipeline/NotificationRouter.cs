using VatWatch.Alarms;
using VatWatch.Notifications.Contacts;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>Hands each alarm change to every contact's book, and what they want told to their desks. Used by the journal stage alone.</summary>
internal sealed class NotificationRouter(IReadOnlyList<ContactLine> lines)
{
    /// <summary>Notifications lost because the disk was away for too long.</summary>
    public long Dropped => lines.Sum(line => line.Desk.Dropped);

    /// <summary>Sentences of each contact held back by the flood limit.</summary>
    public IEnumerable<(string Contact, long HeldBack)> HeldBack => lines.Select(line => (line.Book.Contact.Id, line.Book.HeldBack));

    /// <summary>What is to be told of a change.</summary>
    public IReadOnlyList<Message> Take(AlarmChange change, Stamp now) => Tellings(line => line.Book.Take(change, now));

    /// <summary>What has become due without a change.</summary>
    public IReadOnlyList<Message> Due(Stamp now) => Tellings(line => line.Book.Due(now));

    /// <summary>Calls that the disk does not have yet as they stand.</summary>
    public IReadOnlyList<ContactEscalations> Unstored =>
        [.. lines.Where(line => line.Book.IsChanged).Select(line => new ContactEscalations(line.Book.Contact.Id, line.Book.Stored))];

    /// <summary>The disk has them.</summary>
    public void MarkStored()
    {
        foreach (var line in lines)
        {
            line.Book.MarkStored();
        }
    }

    /// <summary>Keeps what could not be put on the disk, to be told from memory.</summary>
    public void KeepInMemory(IEnumerable<Message> tellings)
    {
        foreach (var group in tellings.GroupBy(telling => telling.Contact))
        {
            lines.First(line => line.Book.Contact.Id == group.Key).Desk.KeepInMemory(group.Select(telling => telling.Notification));
        }
    }

    /// <summary>Tells every sender that something may wait.</summary>
    public void Ring()
    {
        foreach (var line in lines)
        {
            line.Ring();
        }
    }

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(StoreReader reader, IReadOnlyList<AlarmStatus> statuses, Stamp now)
    {
        foreach (var line in lines)
        {
            line.Book.Restore(EscalationTable.Read(reader, line.Book.Contact.Id), statuses, now);
        }
    }

    private IReadOnlyList<Message> Tellings(Func<ContactLine, IReadOnlyList<Notifications.Notification>> what) =>
        [.. lines.SelectMany(line => what(line).Select(note => new Message(line.Book.Contact.Id, note)))];
}
