using System.Device.I2c;
using Microsoft.Extensions.Logging;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c;

/// <summary>The settings of one I2C bus.</summary>
internal sealed record I2cBusPlan(BusId Id, int Number, Func<int, I2cBus> Open) : IBusPlan
{
    public string Kind => I2cBusKind.Name;

    public IProbeBus Create(WatchClock clock, ILoggerFactory logs) => new I2cProbeBus(Id, Number, Open, BlockingLimits.Wire, TimeProvider.System);
}
