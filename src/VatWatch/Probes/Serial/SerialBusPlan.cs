using Microsoft.Extensions.Logging;

namespace VatWatch.Probes.Serial;

/// <summary>A serial port as configured.</summary>
/// <param name="Id">Name of the bus.</param>
/// <param name="Settings">How to open it.</param>
public sealed record SerialBusPlan(BusId Id, SerialSettings Settings) : IBusPlan
{
    public string Kind => SerialBusKind.Name;

    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) => new SerialBus(Id, Settings, TimeProvider.System, SerialDevice.Open);
}
