using VatWatch.Probes.Serial.Lines;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>A way of getting values out of an instrument (<c>text-line</c>, <c>modbus-rtu</c>, <c>ads1115</c>...). Stateless.</summary>
public interface IProbeDriver
{
    /// <summary>The word of the configuration's <c>driver</c>.</summary>
    string Word { get; }

    /// <summary>The kind of bus it needs.</summary>
    string BusKind { get; }

    /// <summary>The folder of <c>hardware-notes/</c> that is about it; null when there is no hardware.</summary>
    string? Notes => null;

    /// <summary>What to look at on the bench when a probe gives no good value.</summary>
    BenchAdvice Advice { get; }

    /// <summary>Settings to begin from. <paramref name="place"/> is where the probe was found, such as a port or a 1-wire device.</summary>
    FirstSettings Begin(Quantity measures, string place);

    /// <summary>
    /// Reads the probe's <c>settings</c>; faults are filed on the node. The caller calls <see cref="ConfigNode.Done"/>.
    /// <paramref name="every"/> is the sample period already read.
    /// </summary>
    ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every);
}

/// <summary>The validated settings of one probe.</summary>
/// <param name="Unit">The unit it delivers in.</param>
/// <param name="Create">Makes the probe on the bus that its driver's kind of bus made; some must be told the temperature of their liquor.</param>
public sealed record ProbePlan(SampleUnit Unit, Func<IProbeBus, VatDefinition, ProbeDefinition, KnownTemperatures, IProbe> Create)
{
    /// <summary>What is asked in lines of text, and how its answer is known; null when nothing is.</summary>
    internal AskedForm? Asked { get; init; }
}

/// <summary>What to look at on the bench. The longer tables are in <c>hardware-notes/</c>.</summary>
/// <param name="Silent">When it never answered.</param>
/// <param name="Wrong">When what it says is no good value.</param>
public sealed record BenchAdvice(string Silent, string Wrong);

/// <summary>The settings of a probe in a first configuration.</summary>
/// <param name="Json">The object; empty when the driver needs none.</param>
/// <param name="Note">Where the rest comes from, as a comment above it; may be empty.</param>
public sealed record FirstSettings(string Json = "", string Note = "");
