using VatWatch.Probes.Gpio;
using VatWatch.Probes.I2c;
using VatWatch.Probes.Kernel;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Spi;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>The buses that a first configuration needs for its probes, one for each port and adapter, and their names.</summary>
internal sealed class InitBuses
{
    private readonly List<(string Name, string Json)> _buses = [];
    private readonly Dictionary<ProbePlace, string> _names = [];

    public InitBuses(InitAnswers answers)
    {
        var isAlone = answers.IsPractice;
        foreach (var place in answers.Probes.Select(probe => probe.Place).Distinct())
        {
            var name = place.BusKind switch
            {
                SerialBusKind.Name => $"serial-{_buses.Count(bus => bus.Name.StartsWith("serial-", StringComparison.Ordinal)) + 1}",
                I2cBusKind.Name => $"i2c-{place.Adapter}",
                SpiBusKind.Name => $"spi-{place.Chip.Bus}-{place.Chip.ChipSelect}",
                OneWireBusKind.Name => "one-wire",
                ModbusTcpBusKind.Name => $"network-{_buses.Count(bus => bus.Name.StartsWith("network-", StringComparison.Ordinal)) + 1}",
                KernelBusKind.Name => "kernel",
                GpioBusKind.Name => $"gpio-{place.Lines}",
                _ => "practice",
            };
            _names[place] = name;
            if (_buses.All(bus => bus.Name != name))
            {
                _buses.Add((name, Json(place, isAlone)));
            }
        }
    }

    public string Section => string.Join(",\n", _buses.Select(bus => $"    {InitDocument.Text(bus.Name)}: {bus.Json}"));

    public string NameOf(ProbePlace place) => _names[place];

    private static string Json(ProbePlace place, bool isAlone) => place.BusKind switch
    {
        SerialBusKind.Name => $$"""{ "kind": "serial", "port": {{InitDocument.Text(place.Text)}}, "baud": 9600 }""",
        I2cBusKind.Name => $$"""{ "kind": "i2c", "bus": {{place.Adapter}} }""",
        SpiBusKind.Name => $$"""{ "kind": "spi", "bus": {{place.Chip.Bus}}, "chipSelect": {{place.Chip.ChipSelect}} }""",
        OneWireBusKind.Name => """{ "kind": "onewire" }""",
        ModbusTcpBusKind.Name => $$"""{ "kind": "modbus-tcp", "host": {{InitDocument.Text(place.Network.Host)}}{{(place.Network.Port is { } port ? $", \"port\": {port}" : "")}} }""",
        KernelBusKind.Name => """{ "kind": "kernel" }""",
        GpioBusKind.Name => $$"""{ "kind": "gpio", "chip": {{place.Lines}} }""",
        _ when isAlone => """{ "kind": "simulation", "speed": 120, "heater": "1500 W" }   // a night in five minutes, with a heater left on""",
        _ => """{ "kind": "simulation" }""",
    };
}
