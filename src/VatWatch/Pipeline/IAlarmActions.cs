using VatWatch.Alarms;

namespace VatWatch.Pipeline;

/// <summary>Where people's acts on alarms are handed in. Thread safe.</summary>
public interface IAlarmActions
{
    /// <summary>
    /// Carries out one act. Completes when the change is on disk; null when there is no such alarm or nothing to do
    /// (<see cref="AlarmActText.NothingDone"/> says it in words).
    /// </summary>
    /// <exception cref="TimeoutException">The disk did not confirm it in time; it may still take effect.</exception>
    /// <exception cref="Store.StoreUnavailableException">It was lost on the way to the disk.</exception>
    Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel);
}
