namespace VatWatch.Alarms;

/// <summary>Where people's acts on alarms are handed in. Thread safe.</summary>
public interface IAlarmActions
{
    /// <summary>
    /// Carries out one act. Completes when the change is on disk; null when there is no such alarm or nothing to do
    /// (<see cref="AlarmActText.NothingDone"/> says it in words).
    /// </summary>
    /// <exception cref="Store.StoreUnavailableException">It was lost on the way to the disk.</exception>
    Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel);
}
