using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline.Replay;

/// <summary>Is handed what a replay brings out, in order of the log's time.</summary>
public interface IReplayListener
{
    /// <summary>A row has become a measurement.</summary>
    void Observe(Measurement measurement);

    /// <summary>The condition was worked out, once a second of the log's time.</summary>
    void Observe(VatCondition condition);

    void Observe(AlarmChange change);
}
