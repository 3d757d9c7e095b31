using VatWatch.Alarms;

namespace VatWatch.Pipeline;

/// <summary>Where people's acts on alarms are handed in. Thread safe.</summary>
public interface IAlarmDesk
{
    /// <summary>
    /// Acknowledges one alarm. Completes when the change is on disk; false when there is no such alarm or nothing to acknowledge.
    /// </summary>
    Task<bool> AcknowledgeAsync(Acknowledgement acknowledgement, CancellationToken cancel);
}
