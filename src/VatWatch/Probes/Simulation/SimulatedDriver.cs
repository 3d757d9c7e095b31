using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Simulation;

/// <summary>A probe in a simulated vat; it delivers in canonical units and has no settings.</summary>
public sealed class SimulatedDriver : IProbeDriver
{
    public string Word => "simulated";

    public string BusKind => "simulation";

    public BenchAdvice Advice { get; } = new(
        "A simulated probe is never silent.",
        "A simulated probe is never wrong.");

    public FirstSettings Begin(Quantity measures, string place) => new();

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every) => new(SampleUnit.Canonical(measures), (bus, vat, probe, _) =>
    {
        var simulated = (SimulatedVatBus)bus;
        simulated.Hang(probe, vat);
        return new SimulatedProbe(simulated, probe);
    });
}
