using Microsoft.Extensions.Logging;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Probes.Serial;

/// <summary>A serial port as configured.</summary>
/// <param name="Id">Name of the bus.</param>
/// <param name="Settings">How to open it.</param>
public sealed record SerialBusPlan(BusId Id, SerialSettings Settings) : IBusPlan
{
    /// <inheritdoc/>
    public string Kind => SerialBusKind.Name;

    /// <inheritdoc/>
    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) => new SerialBus(Id, Settings, TimeProvider.System, SerialDevice.Open);
}
