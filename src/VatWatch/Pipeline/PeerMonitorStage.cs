using VatWatch.Notifications.Watches;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>Listening for another VatWatch, as a stage.</summary>
internal sealed class PeerMonitorStage(PeerMonitor watch) : IStage
{
    public string Name => $"watch of {watch.Site}";

    /// <summary>Longer than the longest wait before another try, and the try. While connected it beats with each ping.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(15), TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => watch.RunAsync(cancel, Pulse);
}
