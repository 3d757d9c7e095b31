using System.Text.Json;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>Makes buses and probes from configuration text, as the daemon will.</summary>
internal static class SerialBench
{
    /// <summary>A vat to hang probes in.</summary>
    public static VatDefinition Vat { get; } = new()
    {
        Id = new VatId("madder-lane"),
        Name = "Madder Lane vat",
        VolumeLitres = 60,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new TemperatureBand(38, 48, 49),
        Probes = [],
    };

    /// <summary>A bus on <paramref name="port"/> with more settings in JSON.</summary>
    public static SerialBus Bus(string port, string more = "")
    {
        var node = Node($$"""{ "port": {{JsonSerializer.Serialize(port)}} {{more}} }""", out var faults);
        var plan = new SerialBusKind().Read(new BusId("bench"), node);
        node.Done();
        Assert.Empty(faults.All);
        return (SerialBus)plan.Create(new WatchClock(TimeProvider.System));
    }

    /// <summary>A probe by any driver on <paramref name="bus"/>.</summary>
    public static IProbe Probe(IProbeDriver driver, IProbeBus bus, string id, Quantity measures, string settings, double everySeconds = 1, KnownTemperatures? known = null)
    {
        var every = TimeSpan.FromSeconds(everySeconds);
        var node = Node(settings, out var faults);
        var plan = driver.Read(node, measures, every);
        node.Done();
        Assert.Empty(faults.All);
        var definition = new ProbeDefinition(new ProbeId(id), Vat.Id, measures, bus.Id, driver.Word, every, plan.Unit);
        return plan.Create(bus, Vat, definition, known ?? new KnownTemperatures(new WatchClock(TimeProvider.System)));
    }

    /// <summary>A <c>text-line</c> probe.</summary>
    public static IProbe Text(IProbeBus bus, string id, Quantity measures, string settings, double everySeconds = 1, KnownTemperatures? known = null) =>
        Probe(new TextLineDriver(), bus, id, measures, settings, everySeconds, known);

    /// <summary>The pattern of a probe with these settings.</summary>
    public static LinePattern Pattern(string settings, Quantity measures = Quantity.Temperature)
    {
        var node = Node(settings, out var faults);
        var line = TextLineDriver.ReadLine(node, measures);
        TextLineDriver.ReadUnit(node, measures);
        node.Done();
        Assert.Empty(faults.All);
        return line.Pattern;
    }

    /// <summary>What the configuration says against these settings.</summary>
    public static IReadOnlyList<string> FaultsOf(IProbeDriver driver, string settings, Quantity measures = Quantity.Temperature)
    {
        var node = Node(settings, out var faults);
        driver.Read(node, measures, TimeSpan.FromSeconds(1));
        node.Done();
        return [.. faults.All.Select(fault => fault.ToString())];
    }

    /// <summary>A node at <c>settings</c>.</summary>
    public static ConfigNode Node(string json, out ConfigFaults faults)
    {
        faults = new ConfigFaults();
        return new ConfigNode(JsonDocument.Parse(json).RootElement, "settings", faults);
    }
}
