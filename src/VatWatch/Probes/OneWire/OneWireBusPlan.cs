using Microsoft.Extensions.Logging;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.OneWire;

/// <summary>The settings of one 1-wire bus.</summary>
internal sealed record OneWireBusPlan(BusId Id, string Root) : IBusPlan
{
    public string Kind => OneWireBusKind.Name;

    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) => new OneWireBus(Id, Root, BlockingLimits.OneWire, TimeProvider.System);
}
