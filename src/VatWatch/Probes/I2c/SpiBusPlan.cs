using System.Device.Spi;
using Microsoft.Extensions.Logging;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c;

/// <summary>The settings of one chip select of an SPI bus.</summary>
internal sealed record SpiBusPlan(BusId Id, int Bus, int ChipSelect, Func<SpiConnectionSettings, SpiDevice> Open) : IBusPlan
{
    public string Kind => SpiBusKind.Name;

    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) =>
        new SpiProbeBus(Id, SpiBusKind.SettingsOf(Bus, ChipSelect), Open, BlockingLimits.Wire, TimeProvider.System);
}
