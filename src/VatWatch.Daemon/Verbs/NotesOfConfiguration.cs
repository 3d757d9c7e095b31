using VatWatch.Daemon.Wiring;
using VatWatch.Probes;

namespace VatWatch.Daemon.Verbs;

/// <summary>Which pages of the hardware notes are about what a configuration names.</summary>
internal static class NotesOfConfiguration
{
    /// <summary>Paths below <c>hardware-notes/</c>: of the drivers, then of what is measured; the heaters' first, which is everybody's.</summary>
    public static IReadOnlyList<string> Pages(IEnumerable<ProbeDefinition> probes)
    {
        var real = probes.Where(probe => Driver(probe).Notes is not null).ToList();
        return real.Count == 0
            ? []
            : [.. real.Select(probe => $"{Driver(probe).Notes}/README.md").Concat(real.Select(probe => About(probe.Quantity)).OfType<string>()).Prepend("heaters.md").Distinct()];
    }

    private static IProbeDriver Driver(ProbeDefinition probe) => Catalog.Everything.Drivers[probe.Driver];

    private static string? About(Quantity quantity) => quantity switch
    {
        Quantity.Ph or Quantity.Orp => "electrodes.md",
        Quantity.Heater or Quantity.HeaterCommand => "heater-power.md",
        Quantity.Level => "level.md",
        _ => null,
    };
}
