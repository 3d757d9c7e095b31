using System.Text.RegularExpressions;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.OneWire;

/// <summary>
/// The driver <c>onewire</c>: a DS18B20 or one of its relatives. <c>id</c>: the name of its folder, such as <c>"28-0316a2797ac5"</c>, of the
/// families 10, 22, 28, 3b and 42.
/// </summary>
public sealed partial class OneWireDriver : IProbeDriver
{
    public string Word => "onewire";

    public string BusKind => OneWireBusKind.Name;

    public string? Notes => "onewire";

    public BenchAdvice Advice { get; } = new(
        "Is 1-wire switched on, does the sensor's folder stand under /sys/bus/w1/devices, and is the pull-up resistor fitted?",
        "85.0 or 0.0 degrees without reason: look at the sensor's supply and ground.");

    public FirstSettings Begin(Quantity measures, string place) => new($$"""{ "id": "{{place}}" }""");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        if (measures is not (Quantity.Temperature or Quantity.Ambient))
        {
            settings.Faults.Add(settings.Path, $"for the driver \"{Word}\" on a probe that measures \"{measures.Word()}\"", "a probe that measures \"temperature\" or \"ambient\"");
        }

        var device = settings.Matching("id", DevicePattern(), "the folder name of a 1-wire thermometer, such as \"28-0316a2797ac5\"");
        return new(SampleUnit.Canonical(measures), (bus, _, probe, _) => new OneWireProbe(probe, (BlockingBus<OneWireFolder>)bus, device));
    }

    [GeneratedRegex("^(10|22|28|3b|42)-[0-9a-f]{12}\\z", RegexOptions.CultureInvariant)]
    private static partial Regex DevicePattern();
}
