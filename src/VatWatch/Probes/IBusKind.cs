using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>A kind of bus that the configuration may name (<c>serial</c>, <c>i2c</c>, <c>simulation</c>...). Stateless.</summary>
public interface IBusKind
{
    /// <summary>The word of the configuration's <c>kind</c>.</summary>
    string Word { get; }

    /// <summary>Reads the bus's settings; faults are filed on the node. The caller calls <see cref="ConfigNode.Done"/>.</summary>
    IBusPlan Read(BusId id, ConfigNode node);
}
