using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline;

/// <summary>Takes what is published on topics; every call returns at once.</summary>
internal interface ITopicPublisher
{
    void Offer(Measurement measurement);

    void Offer(VatCondition condition);

    void Offer(AlarmStatus status);
}
