using Microsoft.Extensions.Logging;

namespace VatWatch.Probes;

/// <summary>The validated settings of one bus, from which the bus itself is made when the daemon starts.</summary>
public interface IBusPlan
{
    /// <summary>Name in the configuration.</summary>
    BusId Id { get; }

    /// <summary>Word of the kind.</summary>
    string Kind { get; }

    /// <summary>How much faster than the wall clock this bus lives: 1 for everything but a fast simulation.</summary>
    double Speed => 1;

    /// <summary>Makes the bus; nothing is opened yet. <paramref name="clock"/> is the vat's clock.</summary>
    IProbeBus Create(WatchClock clock, ILoggerFactory logs);
}
