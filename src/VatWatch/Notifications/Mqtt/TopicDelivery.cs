using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Brings notifications to one contact by topic, over the link's connection. The library sends nothing again after a reconnect and forgets what
/// was under way, so what has no acknowledgement is simply still in the outbox.
/// </summary>
/// <param name="own">The contact's own part of the topic; null for the common one.</param>
internal sealed class TopicDelivery(MqttLink link, AlarmPages pages, string? own, ILogger log) : IDelivery
{
    private bool _unheard;

    public event Action? Reconnected
    {
        add => link.Reconnected += value;
        remove => link.Reconnected -= value;
    }

    public Task ReadyAsync(CancellationToken cancel) => link.ReadyAsync(cancel);

    public async Task<DeliveryOutcome> SendAsync(Notification notification, string key, CancellationToken cancel)
    {
        if (link.Connection is not { } connection)
        {
            return DeliveryOutcome.CutOff("the broker is not there");
        }

        try
        {
            var (outcome, isHeard) = await PublishAsync(connection, link.Messages.Of(notification, pages.Of(notification), own), cancel);
            NoteHearers(outcome, isHeard, link.Topics.Notification(notification.Vat, own));
            return outcome;
        }
        catch (BrokerLostException lost)
        {
            // Whoever found the connection dead first knows best why.
            link.GiveUp(connection, lost.Message);
            return DeliveryOutcome.CutOff(await connection.Lost);
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    /// <summary>Publishes one notification; also whether anybody is subscribed to its topic.</summary>
    /// <exception cref="BrokerLostException">The connection went away.</exception>
    public static async Task<(DeliveryOutcome Outcome, bool IsHeard)> PublishAsync(MqttConnection connection, MqttApplicationMessage message, CancellationToken cancel)
    {
        if (await connection.TryPublishAsync(message, cancel) is not { } result)
        {
            return (OfVat($"the broker does not confirm topic {message.Topic}, though it answers otherwise"), true);
        }

        if (!result.IsSuccess)
        {
            return (OfVat($"the broker refuses topic {message.Topic} ({BrokerText.Reason(result)})"), true);
        }

        return (DeliveryOutcome.Taken($"the broker took topic {message.Topic}"), result.ReasonCode != MqttClientPublishReasonCode.NoMatchingSubscribers);
    }

    private static DeliveryOutcome OfVat(string words) => DeliveryOutcome.Later(words) with { NeedsPerson = true, IsOfVatAlone = true };

    private void NoteHearers(DeliveryOutcome outcome, bool isHeard, string topic)
    {
        if (!isHeard)
        {
            link.Counters.NotificationsUnheard.Add();
        }

        if (!isHeard && !_unheard)
        {
            log.NobodySubscribed(topic);
        }

        _unheard = outcome.Kind == DeliveryKind.Taken ? !isHeard : _unheard;
    }
}
