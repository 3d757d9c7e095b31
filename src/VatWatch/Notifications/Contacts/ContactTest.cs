using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Contacts;

/// <summary>Sends a test sentence straight to a contact, past outbox, hours and limits, and says what the far side answered.</summary>
/// <param name="table">Contacts and the mail server.</param>
/// <param name="mqtt">The broker.</param>
/// <param name="site">The configuration's <c>site</c>.</param>
/// <param name="vats">The vats: each has a topic, and a mail carries the chart of the first.</param>
/// <param name="picture">Draws it; null for a test without a chart.</param>
/// <param name="time">The wall's clock.</param>
public sealed class ContactTest(
    ContactTable table, MqttOptions mqtt, string site, IReadOnlyList<VatId> vats, IVatPicture? picture, TimeProvider time, ILogger<ContactTest> log)
{
    /// <summary>A whole test, whatever its way; longer than a person at a keyboard wants to wait.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    /// <summary>What a test is filed under.</summary>
    private static readonly AlarmName Test = new("test");

    /// <summary>Everybody who can be tested.</summary>
    public IReadOnlyList<Contact> Contacts => table.Contacts;

    public async Task<DeliveryOutcome> SendAsync(Contact contact, CancellationToken cancel)
    {
        var sentence = $"Test from VatWatch at {site}: alarms for {contact.Name} come this way. Nothing is wrong.";
        var vat = picture is not null && contact.Way is ContactWay.Mail && vats.Count > 0 ? vats[0] : VatId.Daemon;
        var notification = new Notification(0, vat, Test, AlarmPriority.Low, time.GetUtcNow(), sentence);
        using var limit = new Deadline(Limit, time, cancel);
        try
        {
            return await SendAsync(contact, notification, limit.Token).WaitAsync(limit.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return DeliveryOutcome.Later($"no answer within {DisplayUnits.Duration(Limit)}");
        }
    }

    private async Task<DeliveryOutcome> SendAsync(Contact contact, Notification notification, CancellationToken cancel)
    {
        if (contact.Way is ContactWay.Topic topic)
        {
            return await SendByTopicAsync(topic, notification, cancel);
        }

        await using var delivery = Deliveries.Open(table, contact, site, picture, link: null, time, log);
        return await delivery.SendAsync(notification, ContactSender.KeyOf(contact.Id, notification), cancel);
    }

    /// <summary>
    /// On the topic of every vat and on the daemon's, over a connection of its own beside that of the daemon. A notification that nobody is
    /// subscribed to has not arrived.
    /// </summary>
    private async Task<DeliveryOutcome> SendByTopicAsync(ContactWay.Topic topic, Notification notification, CancellationToken cancel)
    {
        try
        {
            var timings = new MqttTimings();
            var settings = ClientSettings.Make(mqtt, $"vatwatch-{site}-test", null, timings);
            await using var connection = await MqttConnection.OpenAsync(mqtt, settings, (_, _) => Task.CompletedTask, timings, time, cancel);
            var messages = new MqttMessages(new(site), DisplayUnits.Si);
            var outcome = DeliveryOutcome.Taken("");
            foreach (var vat in vats.Append(VatId.Daemon).TakeWhile(_ => outcome.Kind == DeliveryKind.Taken))
            {
                outcome = await PublishAsync(connection, messages.Of(notification with { Vat = vat }, table.Pages.Of(notification), topic.Own), cancel);
            }

            return outcome;
        }
        catch (BrokerLostException lost)
        {
            return DeliveryOutcome.Later($"{mqtt.Address}: {lost.Message}");
        }
    }

    private async Task<DeliveryOutcome> PublishAsync(MqttConnection connection, MqttApplicationMessage message, CancellationToken cancel)
    {
        var (outcome, isHeard) = await TopicDelivery.PublishAsync(connection, message, cancel);
        return isHeard
            ? outcome with { Words = $"{mqtt.Address}: {outcome.Words}" }
            : DeliveryOutcome.Later($"{mqtt.Address} took it, but nobody is subscribed to {message.Topic}, so no phone heard it") with { NeedsPerson = true };
    }
}
