using Microsoft.Extensions.Logging;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Webhook;

namespace VatWatch.Notifications.Contacts;

/// <summary>Opens the way to a contact. Topics have none: the link to the broker serves them all.</summary>
internal static class Deliveries
{
    /// <summary>The way to <paramref name="contact"/>; null for one who is told by MQTT.</summary>
    public static IDelivery? Open(ContactTable book, Contact contact, string site, IVatPicture? picture, TimeProvider time, ILogger log) => contact.Way switch
    {
        ContactWay.Mail => new MailDelivery(book.Mail!, site, contact, picture, new MailTimings(), time, log),
        ContactWay.Webhook hook => new WebhookDelivery(hook.Options, site, contact, new WebhookTimings(), time),
        _ => null,
    };
}
