using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>The link to the broker, as a stage. The link keeps what was offered, so a start after a failure tells everything anew.</summary>
internal sealed class MqttStage(MqttLink link) : IStage
{
    public string Name => "mqtt";

    public Task RunAsync(CancellationToken cancel) => link.RunAsync(cancel);
}
