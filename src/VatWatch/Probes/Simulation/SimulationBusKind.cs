using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Simulation;

/// <summary>A vat that exists only as equations, behind the same seam as a real port.</summary>
public sealed class SimulationBusKind : IBusKind
{
    public string Word => "simulation";

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var usual = new SimulationScenario();
        var scenario = new SimulationScenario
        {
            Speed = node.Number("speed", 1, 10_000, usual.Speed),
            Seed = node.Whole("seed", 0, int.MaxValue, usual.Seed),
            StartC = node.Quantity("start", QuantityKind.Temperature, 1, 95, usual.StartC),
            AmbientC = node.Quantity("ambient", QuantityKind.Temperature, 0, 45, usual.AmbientC),
            HeaterWatts = node.Quantity("heater", QuantityKind.Power, 0, 20_000, usual.HeaterWatts),
            ThermostatC = node.Has("thermostat") ? node.Quantity("thermostat", QuantityKind.Temperature, 1, 95) : null,
            Lid = node.Flag("lid", usual.Lid),
        };
        return new(id, Word, clock => new SimulatedVatBus(id, scenario, clock)) { Speed = scenario.Speed };
    }
}
