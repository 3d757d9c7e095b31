using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>A way of getting values out of an instrument (<c>text-line</c>, <c>modbus-rtu</c>, <c>ads1115</c>...). Stateless.</summary>
public interface IProbeDriver
{
    /// <summary>The word of the configuration's <c>driver</c>.</summary>
    string Word { get; }

    /// <summary>The kind of bus it needs.</summary>
    string BusKind { get; }

    /// <summary>
    /// Reads the probe's <c>settings</c>; faults are filed on the node. The caller calls <see cref="ConfigNode.Done"/>.
    /// <paramref name="every"/> is the sample period already read.
    /// </summary>
    IProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every);
}
