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

/// <summary>Looks at the simulated vat through a probe of ordinary quality.</summary>
internal sealed class SimulatedProbe(SimulatedVatBus bus, ProbeDefinition definition) : IProbe
{
    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public ValueTask<Sample> TakeSampleAsync(CancellationToken cancel) => ValueTask.FromResult(Evaluate(bus.Now(definition)));

    private Sample Evaluate(VatModel vat) => Sample.Good(definition.Quantity switch
    {
        Quantity.Temperature => Noisy(vat, vat.TemperatureC, 0.03, 2),
        Quantity.Ambient => Noisy(vat, vat.AmbientC, 0.05, 2),
        Quantity.Ph => Noisy(vat, vat.Ph, 0.01, 2),
        Quantity.Orp => Noisy(vat, vat.OrpMillivolts, 1.0, 1),
        Quantity.Heater or Quantity.HeaterCommand => vat.HeaterOn ? 1 : 0,
        _ => Noisy(vat, vat.LevelPercent, 0.1, 1),
    });

    /// <summary>Scatter of the size that the parts' data sheets lead one to expect, then the rounding of their displays.</summary>
    private static double Noisy(VatModel vat, double value, double deviation, int decimals) =>
        Math.Round(value + deviation * vat.Noise(), decimals);
}
