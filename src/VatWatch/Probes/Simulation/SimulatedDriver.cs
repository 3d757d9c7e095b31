using VatWatch.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Simulation;

/// <summary>A probe in a simulated vat; it delivers in canonical units and has no settings.</summary>
public sealed class SimulatedDriver : IProbeDriver
{
    /// <inheritdoc/>
    public string Word => "simulated";

    /// <inheritdoc/>
    public string BusKind => "simulation";

    /// <inheritdoc/>
    public IProbePlan Read(ConfigNode settings, Measures measures, TimeSpan every) => new Plan(SampleUnit.Canonical(measures));

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
