using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Simulation;

/// <summary>A probe in a simulated vat; it delivers in canonical units and has no settings.</summary>
public sealed class SimulatedDriver : IProbeDriver
{
    public string Word => "simulated";

    public string BusKind => "simulation";

    public IProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every) => new Plan(SampleUnit.Canonical(measures));

    private sealed record Plan(SampleUnit Unit) : IProbePlan
    {
        public IProbe Create(IProbeBus bus, VatDefinition vat, ProbeDefinition probe)
        {
            var simulated = (SimulatedVatBus)bus;
            simulated.Hang(probe, vat);
            return new SimulatedProbe(simulated, probe);
        }
    }
}
