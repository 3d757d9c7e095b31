using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>Takes what is published on topics; every call returns at once.</summary>
internal interface ITopicPublisher
{
    void Enqueue(Measurement measurement);

    void Enqueue(VatCondition condition);

    void Enqueue(AlarmStatus status);
}
