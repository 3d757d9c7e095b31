using VatWatch.Pipeline.Configuration;
using VatWatch.Probes;

namespace VatWatch.Pipeline.Assembly;

/// <summary>One bus with the probes on it, made from a configuration and not yet opened.</summary>
/// <param name="Probes">Its probes, in the order of the configuration.</param>
public sealed record BusWithProbes(IProbeBus Bus, IReadOnlyList<IProbe> Probes)
{
    public static IReadOnlyList<BusWithProbes> Build(WatchConfiguration configuration, WatchClock clock, KnownTemperatures known)
    {
        var buses = new List<BusWithProbes>();
        foreach (var plan in configuration.Buses)
        {
            var bus = plan.Create(clock);
            var probes = configuration.Vats
                .SelectMany(vat => vat.Definition.Probes.Zip(vat.Probes, (definition, probe) => (vat, definition, probe)))
                .Where(entry => entry.definition.Bus == plan.Id)
                .Select(entry => entry.probe.Create(bus, entry.vat.Definition, entry.definition, known))
                .ToList();
            if (probes.Count > 0)
            {
                buses.Add(new BusWithProbes(bus, probes));
            }
        }

        return buses;
    }
}
