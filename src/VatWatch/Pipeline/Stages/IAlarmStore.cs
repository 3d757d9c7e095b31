using VatWatch.Alarms;

namespace VatWatch.Pipeline.Stages;

/// <summary>Puts alarm changes, what people are told of them, and who is still to be told on the disk in one transaction.</summary>
internal interface IAlarmStore
{
    /// <summary>Completes when all are on the disk; throws <see cref="Store.StoreUnavailableException"/> when they are not.</summary>
    Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> messages, IReadOnlyList<ContactEscalations> escalations, CancellationToken cancel);
}
