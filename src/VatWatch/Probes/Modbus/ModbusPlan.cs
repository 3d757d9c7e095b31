using VatWatch.Probes.Serial;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Modbus;

/// <summary>A <c>modbus-rtu</c> probe as configured.</summary>
internal sealed record ModbusPlan(ModbusSettings Settings, SampleUnit Unit) : IProbePlan
{
    public IProbe Create(IProbeBus bus, VatDefinition vat, ProbeDefinition probe) => new ModbusProbe((SerialBus)bus, probe, Settings);
}
