using VatWatch.Daemon.Web.Health;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>Readiness of the daemon from its stages, its store and its broker.</summary>
internal sealed class StageReadings(StageSupervisor supervisor, WatchStore store, MqttLink link) : IReadiness
{
    public IReadOnlyList<StageReadiness> Stages
    {
        get
        {
            var (health, broker) = (store.Health, link.State);
            return
            [
                .. supervisor.Health.Select(stage => new StageReadiness(
                    stage.Stage,
                    stage.IsRunning,
                    stage.IsRunning ? "Running." : $"Not running: {stage.LastFault ?? "it has not started yet"}.")),
                new StageReadiness("disk", health.Ok, health.Ok ? "Commits succeed." : $"Commits fail: {health.Reason}."),
                new StageReadiness("broker", broker.Connected, broker.Connected ? "Connected." : broker.Reason ?? "Not connected."),
            ];
        }
    }
}
