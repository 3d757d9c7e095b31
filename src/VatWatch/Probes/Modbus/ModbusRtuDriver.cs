using VatWatch.Probes.Serial;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Modbus;

/// <summary>
/// The driver <c>modbus-rtu</c>: one number in the registers of a device on a serial port. Several devices and probes may share the port.
/// </summary>
/// <remarks>
/// Settings: <c>address</c> 1 to 247, <c>function</c> 1 (coils), 2 (discrete inputs), 3 (holding registers) or 4 (input registers), <c>register</c> 0 to 65535 as on the wire
/// (40001 and 30001 in manuals are register 0), <c>format</c> one of <see cref="Registers.Words"/>, <c>scale</c> (default 1; 0.1 for a
/// device that sends tenths), <c>offset</c> (added after it; default 0) and <c>unit</c>, see <see cref="SampleUnit.Wanted"/>.
/// </remarks>
public sealed class ModbusRtuDriver : IProbeDriver
{
    public string Word => "modbus-rtu";

    public string BusKind => SerialBusKind.Name;

    public string? Notes => "modbus-rtu";

    public BenchAdvice Advice { get; } = new(
        "Are A and B the right way round, the address and the speed those set in the instrument, and is the line terminated at both ends?",
        "Check function, register (40001 in a manual is register 0), format and scale against the instrument's table.");

    public FirstSettings Begin(Quantity measures, string place)
    {
        var scale = measures switch
        {
            Quantity.Ph => "0.01",
            Quantity.Orp or Quantity.Heater or Quantity.HeaterCommand => "1",
            _ => "0.1",
        };
        return new(
            $$"""{ "address": 1, "function": 4, "register": 0, "format": "int16", "scale": {{scale}}, "unit": "{{measures.Unit()}}" }""",
            "From the transmitter's manual: address, function (3 holding, 4 input registers, 1 coils, 2 discrete inputs), register counted from 0, format and scale.");
    }

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var unit = TextLineDriver.ReadUnit(settings, measures);
        var asked = ReadAsked(settings, settings.Whole("address", 1, 247));
        return new(unit, (bus, _, probe, _) => new ModbusProbe(new ModbusSerialLine((SerialBus)bus), probe, asked));
    }

    internal static ModbusSettings ReadAsked(ConfigNode settings, int address)
    {
        var faults = settings.Faults.All.Count;
        var function = settings.Whole("function", 1, 4);
        var register = settings.Whole("register", 0, ushort.MaxValue);
        var format = settings.Choice("format", Registers.Words, RegisterFormat.Int16, required: true);
        if (register + format.Count() > ushort.MaxValue + 1)
        {
            settings.Faults.Add(settings.PathOf("register"), $"{register}", "a register with one after it, for a number of two registers");
        }

        if (settings.Faults.All.Count == faults && (format == RegisterFormat.Bit) != (function is 1 or 2))
        {
            settings.Faults.Add(settings.PathOf("format"), settings.Shown("format"), "\"bit\" with function 1 or 2, and no other function with \"bit\"");
        }

        var offset = settings.Number("offset", -TextLineDriver.MostOffset, TextLineDriver.MostOffset, 0);
        return new((byte)address, (byte)function, (ushort)register, format, TextLineDriver.ReadScale(settings), offset);
    }
}
