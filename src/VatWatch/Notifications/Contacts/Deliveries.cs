using Microsoft.Extensions.Logging;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Webhook;

namespace VatWatch.Notifications.Contacts;

/// <summary>Opens the way to a contact.</summary>
internal static class Deliveries
{
    /// <summary>The way to <paramref name="contact"/>.</summary>
    /// <param name="table">Contacts and the mail server.</param>
    /// <param name="site">The configuration's <c>site</c>.</param>
    /// <param name="picture">Draws the chart of a mail; null for mails without.</param>
    /// <param name="link">The link to the broker; it may be null only for a contact by another way.</param>
    /// <param name="time">The wall's clock.</param>
    public static IDelivery Open(ContactTable table, Contact contact, string site, IVatPicture? picture, MqttLink? link, TimeProvider time, ILogger log) => contact.Way switch
    {
        ContactWay.Mail => new MailDelivery(table.Mail!, site, contact, table.Pages, table.Zone, picture, new MailTimings(), time, log),
        ContactWay.Webhook hook => new WebhookDelivery(hook.Options, site, contact, table.Pages, new WebhookTimings(), time),
        ContactWay.Topic topic => new TopicDelivery(link!, table.Pages, topic.Own, log),
        _ => throw new ArgumentOutOfRangeException(nameof(contact), contact.Way, "is not a way to a contact"),
    };
}
