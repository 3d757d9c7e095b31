using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Mqtt;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>Hands each alarm change to every contact's policy, and what they are to be notified of to their outboxes. Used by the journal stage alone.</summary>
internal sealed class NotificationRouter(IReadOnlyList<ContactRoute> routes)
{
    /// <summary>Makes a route to every contact; nothing runs yet.</summary>
    public static NotificationRouter Make(
        ContactTable table, string site, IVatPicture? picture, WatchStore store, MqttLink link, ILoggerFactory logs)
    {
        var log = logs.CreateLogger<ContactSender>();
        return new([.. table.Contacts.Select(contact =>
        {
            var outbox = new OutboxQueue(store, contact.Id, TimeProvider.System);
            var delivery = Deliveries.Open(table, contact, site, picture, link, TimeProvider.System, log);
            return new ContactRoute(
                new EscalationPolicy(contact, new FloodGate()),
                outbox,
                new ContactSender(contact.Id, contact.Way.Word, delivery, outbox, new DeliveryTimings(), TimeProvider.System, log));
        })]);
    }

    /// <summary>Who brings the outboxes to the contacts.</summary>
    public IReadOnlyList<ContactSender> Senders { get; } = [.. routes.Select(route => route.Sender)];

    /// <summary>Notifications lost because the disk was away for too long.</summary>
    public long Dropped => routes.Sum(route => route.Outbox.Dropped);

    /// <summary>Notifications of each contact held back by the flood limit.</summary>
    public IEnumerable<(string Contact, long HeldBack)> HeldBack => routes.Select(route => (route.Contact, route.Policy.HeldBack));

    /// <summary>Who is to be notified of a change, and how.</summary>
    public IReadOnlyList<Message> Take(AlarmChange change, Stamp now) => Messages(route => route.Policy.Take(change, now));

    /// <summary>What has become due without a change.</summary>
    public IReadOnlyList<Message> Due(Stamp now) => Messages(route => route.Policy.Due(now, StandsIn(route)));

    /// <summary>Escalations that the disk does not have yet as they stand.</summary>
    public IReadOnlyList<ContactEscalations> Unstored =>
        [.. routes.Where(route => route.Policy.IsChanged).Select(route => new ContactEscalations(route.Contact, route.Policy.Stored))];

    /// <summary>The disk has them.</summary>
    public void MarkStored()
    {
        foreach (var route in routes)
        {
            route.Policy.MarkStored();
        }
    }

    /// <summary>Keeps what could not be put on the disk, to go out from memory.</summary>
    public void KeepInMemory(IEnumerable<Message> messages)
    {
        foreach (var group in messages.GroupBy(message => message.Contact))
        {
            routes.First(route => route.Contact == group.Key).Outbox.KeepInMemory(group.Select(message => message.Notification));
        }
    }

    /// <summary>Lets every sender know that something may wait.</summary>
    public void Wake()
    {
        foreach (var sender in Senders)
        {
            sender.Wake();
        }
    }

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(StoreReader reader, IReadOnlyList<AlarmStatus> statuses, Stamp now)
    {
        foreach (var route in routes)
        {
            route.Policy.Restore(EscalationTable.Read(reader, route.Contact), statuses, now);
        }
    }

    /// <summary>Whether nobody of those who are notified before this contact can be reached, so that waiting for them is of no use.</summary>
    private bool StandsIn(ContactRoute route)
    {
        var before = routes.Where(other => other.Policy.Contact.After < route.Policy.Contact.After).ToList();
        return before.Count > 0 && before.All(other => other.Sender.Health.Trouble is not null);
    }

    private IReadOnlyList<Message> Messages(Func<ContactRoute, IReadOnlyList<Notification>> what) =>
        [.. routes.SelectMany(route => what(route).Select(notification => new Message(route.Contact, notification)))];
}

/// <summary>The way from an alarm to one contact.</summary>
/// <param name="Policy">Decides what the contact is notified of and when.</param>
/// <param name="Outbox">What waits to go out.</param>
/// <param name="Sender">Brings it there.</param>
internal sealed record ContactRoute(EscalationPolicy Policy, OutboxQueue Outbox, ContactSender Sender)
{
    /// <summary>The contact's id.</summary>
    public string Contact => Policy.Contact.Id;
}

/// <summary>A notification for one contact.</summary>
/// <param name="Contact">The contact's id, which is the channel of the outbox.</param>
internal readonly record struct Message(string Contact, Notification Notification);

/// <summary>All that is to be kept of one contact's escalations.</summary>
internal sealed record ContactEscalations(string Contact, IReadOnlyList<StoredEscalation> Escalations);
