using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications.Mqtt;

namespace VatWatch.Pipeline;

/// <summary>Hands what is published to the MQTT link.</summary>
internal sealed class MqttTopicPublisher : ITopicPublisher
{
    /// <summary>The link; set once, before anything is offered. It and the journal need each other.</summary>
    public MqttLink? Link { get; set; }

    public void Enqueue(Measurement measurement) => Link?.Enqueue(measurement);

    public void Enqueue(VatCondition condition) => Link?.Enqueue(condition);

    public void Enqueue(AlarmStatus status) => Link?.Enqueue(status);
}
