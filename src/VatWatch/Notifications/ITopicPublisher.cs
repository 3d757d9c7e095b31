using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Notifications;

/// <summary>Publishes what the watch finds for programs and screens; every call returns at once.</summary>
public interface ITopicPublisher
{
    /// <summary>Publishes a measurement, as soon as it can be.</summary>
    void Enqueue(Measurement measurement);

    /// <summary>Publishes a condition, as soon as it can be and unless a newer one of the vat comes first.</summary>
    void Enqueue(VatCondition condition);

    /// <summary>Publishes an alarm's state, as soon as it can be and unless a newer one of the alarm comes first.</summary>
    void Enqueue(AlarmStatus status);
}
