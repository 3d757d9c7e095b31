using VatWatch.Pipeline.Configuration;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Simulation;

namespace VatWatch.Daemon.Wiring;

/// <summary>Every kind of bus and driver this program knows: one line each.</summary>
internal static class Catalog
{
    public static ProbeCatalog Everything { get; } = ProbeCatalog.Of(
        [
            new SerialBusKind(),
            new SimulationBusKind(),
        ],
        [
            new TextLineDriver(),
            new SimulatedDriver(),
        ]);
}
