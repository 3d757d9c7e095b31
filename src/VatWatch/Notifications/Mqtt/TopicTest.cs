using MQTTnet;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Sends one test sentence by topic over a connection of its own, beside the daemon's, and says what the broker answered.</summary>
internal static class TopicTest
{
    /// <summary>Sends <paramref name="notification"/> and takes leave.</summary>
    public static async Task<DeliveryOutcome> SendAsync(
        MqttOptions options, string site, string? own, Notification notification, MqttTimings timings, TimeProvider time, CancellationToken cancel)
    {
        try
        {
            var settings = ClientSettings.Make(options, $"vatwatch-{site}-test", null, timings);
            await using var connection = await MqttConnection.OpenAsync(options, settings, (_, _) => Task.CompletedTask, timings, time, cancel);
            var message = new MqttMessages(new(site), DisplayUnits.Si).Of(notification, own);
            var result = await connection.PublishAsync(message, cancel);
            return (result.IsSuccess, result.ReasonCode) switch
            {
                (false, var reason) => DeliveryOutcome.Later($"{options.Address} refused topic {message.Topic} ({reason})") with { NeedsPerson = true },
                (_, MqttClientPublishReasonCode.NoMatchingSubscribers) =>
                    DeliveryOutcome.Later($"{options.Address} took it, but nobody is subscribed to {message.Topic}, so no phone heard it") with { NeedsPerson = true },
                _ => DeliveryOutcome.Taken($"{options.Address} took it on {message.Topic}"),
            };
        }
        catch (BrokerLostException lost)
        {
            return DeliveryOutcome.Later($"{options.Address}: {lost.Message}");
        }
    }
}
