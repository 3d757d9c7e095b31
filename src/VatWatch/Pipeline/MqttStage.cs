using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Supervision;

namespace VatWatch.Pipeline;

/// <summary>The link to the broker, as a stage. A link runs once, so each start makes a new one and offers it what stands.</summary>
internal sealed class MqttStage(MqttLink link) : IStage
{
    public string Name => "mqtt";

    public Task RunAsync(CancellationToken cancel) => link.RunAsync(cancel);
}
