using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Modbus;

/// <summary>
/// The driver <c>modbus-tcp</c>: one number in the registers of a device on a network, or of one behind a gateway. Settings are those of
/// <see cref="ModbusRtuDriver"/>, with <c>address</c> from 0 to 255 (default 255, which most devices that are no gateway take).
/// </summary>
public sealed class ModbusTcpDriver : IProbeDriver
{
    private static readonly ModbusRtuDriver Serial = new();

    public string Word => "modbus-tcp";

    public string BusKind => ModbusTcpBusKind.Name;

    public string? Notes => "modbus-rtu";

    public BenchAdvice Advice { get; } = new(
        "Is the device on, does it have this address on the network ('ping' it), and is its port for Modbus (502) open?",
        Serial.Advice.Wrong);

    public FirstSettings Begin(Quantity measures, string place) => Serial.Begin(measures, place);

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var unit = TextLineDriver.ReadUnit(settings, measures);
        var asked = ModbusRtuDriver.ReadAsked(settings, settings.Whole("address", 0, byte.MaxValue, byte.MaxValue));
        return new(unit, (bus, _, probe, _) => new ModbusProbe((ModbusTcpBus)bus, probe, asked));
    }
}
