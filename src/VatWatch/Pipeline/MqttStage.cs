using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>The link to the broker, as a stage. The link keeps what was offered, so a start after a failure tells everything anew.</summary>
internal sealed class MqttStage(MqttLink link) : IStage
{
    public string Name => "mqtt";

    /// <summary>Longer than the longest wait before another try, and the try. While connected it beats with each ping.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromMinutes(15), TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => link.RunAsync(cancel, Pulse);
}
