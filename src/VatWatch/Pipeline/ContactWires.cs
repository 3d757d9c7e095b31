using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>What joins alarms to contacts, made from a configuration.</summary>
/// <param name="NotificationRouter">Hands alarm changes to every contact.</param>
/// <param name="Senders">Contacts with a way of their own: mail, webhook.</param>
/// <param name="Recipients">Contacts who are told by topic.</param>
internal sealed record ContactWires(NotificationRouter NotificationRouter, IReadOnlyList<ContactSender> Senders, IReadOnlyList<MqttRecipient> Recipients)
{
    /// <summary>Makes them; nothing runs yet.</summary>
    public static ContactWires Make(
        ContactTable book, string site, IVatPicture? picture, WatchStore store, Action ringTopics, ILoggerFactory logs)
    {
        var lines = new List<ContactLine>();
        var senders = new List<ContactSender>();
        var recipients = new List<MqttRecipient>();
        foreach (var contact in book.Contacts)
        {
            var desk = new OutboxQueue(store, contact.Id, TimeProvider.System);
            var ring = ringTopics;
            var log = logs.CreateLogger<ContactSender>();
            if (Deliveries.Open(book, contact, site, picture, TimeProvider.System, log) is { } delivery)
            {
                var sender = new ContactSender(contact.Id, contact.Way.Word, delivery, desk, new DeliveryTimings(), TimeProvider.System, log);
                senders.Add(sender);
                ring = sender.Ring;
            }
            else
            {
                recipients.Add(new(desk, ((ContactWay.Topic)contact.Way).Own));
            }

            lines.Add(new(new EscalationPolicy(contact, new FloodGate()), desk, ring));
        }

        return new(new NotificationRouter(lines), senders, recipients);
    }
}
