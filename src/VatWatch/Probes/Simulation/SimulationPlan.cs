using Microsoft.Extensions.Logging;

namespace VatWatch.Probes.Simulation;

/// <summary>The settings of one simulated vat.</summary>
internal sealed record SimulationPlan(BusId Id, SimulationScenario Scenario) : IBusPlan
{
    public string Kind => "simulation";

    public double Speed => Scenario.Speed;

    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) => new SimulatedVatBus(Id, Scenario, clock);
}
