using System.Buffers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using MQTTnet;
using MQTTnet.Packets;
using MQTTnet.Protocol;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications.Mqtt.Commands;

namespace VatWatch.Notifications.Mqtt;

/// <summary>Makes the messages of one site: topic, payload, content type, retained or not, and quality of service.</summary>
internal sealed class MqttMessages(MqttTopics topics, DisplayUnits units)
{
    /// <summary>Payload of the status topic while the daemon is connected.</summary>
    public const string Online = "online";

    /// <summary>Payload of the status topic otherwise; also the will.</summary>
    public const string Offline = "offline";

    /// <summary>
    /// Name of the user property that carries a notification's number, by which a receiver recognises the one that is sent again when a
    /// connection broke between sending and acknowledging.
    /// </summary>
    public const string NotificationNumber = "notification-id";

    public MqttApplicationMessage Status(string word) => Message(topics.Status, Encoding.UTF8.GetBytes(word), "text/plain", retain: true, once: true);

    /// <summary>SenML, retained, QoS 0.</summary>
    public MqttApplicationMessage Of(Measurement measurement) => Message(
        topics.Measurement(measurement.Vat, measurement.Probe),
        Json(SenMlRecord.Pack(topics, measurement), MqttJson.Readable.SenMlRecordArray),
        "application/senml+json", retain: true, once: false);

    /// <summary>JSON, retained, QoS 1.</summary>
    public MqttApplicationMessage Of(VatCondition condition) => Message(
        topics.Condition(condition.Vat),
        Json(ConditionDocument.Of(condition), MqttJson.Readable.ConditionDocument),
        "application/json", retain: true, once: true);

    /// <summary>JSON, retained, QoS 1.</summary>
    public MqttApplicationMessage Of(AlarmStatus status) => Message(
        topics.Alarm(status.Vat, status.Alarm),
        Json(AlarmDocument.Of(status, units), MqttJson.Readable.AlarmDocument),
        "application/json", retain: true, once: true);

    /// <summary>A beat, JSON, not retained, QoS 1.</summary>
    public MqttApplicationMessage Of(HeartbeatDocument beat) =>
        Message(topics.Heartbeat, Json(beat, MqttJson.Readable.HeartbeatDocument), "application/json", retain: false, once: true);

    /// <summary>What is wrong, what to do and the address of the page, in this order because a lock screen shows the beginning; not retained, QoS 1.</summary>
    public MqttApplicationMessage Of(Notification notification, string? page = null, string? own = null)
    {
        var text = string.Join(' ', new[] { notification.Sentence, notification.Action, page }.Where(part => !string.IsNullOrEmpty(part)));
        var message = Message(topics.Notification(notification.Vat, own), Encoding.UTF8.GetBytes(text), "text/plain", retain: false, once: true);
        var number = notification.Id.ToString();
        message.UserProperties = [new MqttUserProperty(NotificationNumber, Encoding.UTF8.GetBytes(number))];
        return message;
    }

    /// <summary>An answer, not retained, QoS 0: whoever asked is there or is not.</summary>
    public static MqttApplicationMessage Of(CommandReply reply, string responseTopic, byte[]? correlation)
    {
        var message = Message(responseTopic, Json(reply, MqttJson.Readable.CommandReply), "application/json", retain: false, once: false);
        message.CorrelationData = correlation;
        return message;
    }

    private static byte[] Json<T>(T document, JsonTypeInfo<T> type) => JsonSerializer.SerializeToUtf8Bytes(document, type);

    private static MqttApplicationMessage Message(string topic, byte[] payload, string contentType, bool retain, bool once) => new()
    {
        Topic = topic,
        Payload = new ReadOnlySequence<byte>(payload),
        ContentType = contentType,
        PayloadFormatIndicator = MqttPayloadFormatIndicator.CharacterData,
        Retain = retain,
        QualityOfServiceLevel = once ? MqttQualityOfServiceLevel.AtLeastOnce : MqttQualityOfServiceLevel.AtMostOnce,
    };
}
