using VatWatch.Notifications;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>The sender of one contact, as a stage of its own: a dead mail server delays nobody else.</summary>
internal sealed class ContactStage(ContactSender sender) : IStage
{
    public string Name => $"contact {sender.Contact}";

    /// <summary>Longer than the longest wait before another try, and the try.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(15), TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => sender.RunAsync(cancel, Pulse);
}
