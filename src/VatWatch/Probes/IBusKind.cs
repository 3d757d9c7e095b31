using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>A kind of bus that the configuration may name (<c>serial</c>, <c>i2c</c>, <c>simulation</c>...). Stateless.</summary>
public interface IBusKind
{
    /// <summary>The word of the configuration's <c>kind</c>.</summary>
    string Word { get; }

    /// <summary>Reads the bus's settings; faults are filed on the node. The caller calls <see cref="ConfigNode.Done"/>.</summary>
    BusPlan Read(BusId id, ConfigNode node);
}

/// <summary>The validated settings of one bus.</summary>
/// <param name="Id">Name in the configuration.</param>
/// <param name="Create">Makes the bus from the vat's clock; nothing is opened yet.</param>
public sealed record BusPlan(BusId Id, string Kind, Func<WatchClock, IProbeBus> Create)
{
    /// <summary>How much faster than the wall clock this bus lives: 1 for everything but a fast simulation.</summary>
    public double Speed { get; init; } = 1;

    /// <summary>Looks at what is there now, and says in a sentence what is allowed and yet better otherwise; null when there is nothing.</summary>
    public Func<string?> Remark { get; init; } = () => null;
}
