using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Pipeline.Replay;

/// <summary>Hears what a replay brings out, in order of the log's time.</summary>
public interface IReplayListener
{
    /// <summary>A row has become a measurement.</summary>
    void Heard(Measurement measurement);

    /// <summary>The condition was worked out, once a second of the log's time.</summary>
    void Heard(VatCondition condition);

    void Heard(AlarmChange change);
}
