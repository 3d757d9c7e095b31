using VatWatch.Alarms;
using VatWatch.Notifications;

namespace VatWatch.Pipeline;

/// <summary>Puts alarm changes and their notifications on the disk in one transaction.</summary>
internal interface IAlarmStore
{
    /// <summary>Completes when both are on the disk; throws <see cref="Store.StoreUnavailableException"/> when they are not.</summary>
    Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Notification> notifications, CancellationToken cancel);
}
