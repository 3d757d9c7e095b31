using System.Text.Json.Serialization;

namespace VatWatch.Daemon.Web.Health;

/// <summary>Numbers of one kind.</summary>
/// <param name="Name">Name without suffix, lower case with underscores, ending in the unit where there is one.</param>
/// <param name="Type">What kind of numbers.</param>
/// <param name="Unit">Unit word that the name ends in, for example "seconds"; empty for none.</param>
/// <param name="Help">One sentence.</param>
/// <param name="Samples">The numbers.</param>
internal sealed record MetricFamily(string Name, MetricType Type, string Unit, string Help, IReadOnlyList<MetricSample> Samples)
{
    /// <summary>A single number that goes up and down.</summary>
    public static MetricFamily Gauge(string name, string unit, string help, double value) => new(name, MetricType.Gauge, unit, help, [new(value)]);

    /// <summary>A single number that only grows.</summary>
    public static MetricFamily Counter(string name, string unit, string help, double value) => new(name, MetricType.Counter, unit, help, [new(value)]);
}

/// <summary>One number of a family.</summary>
/// <param name="Value">The number.</param>
/// <param name="Labels">What tells it from the others of its family.</param>
internal sealed record MetricSample(double Value, params IReadOnlyList<(string Name, string Value)> Labels);

/// <summary>The types of OpenMetrics 1.0 that are used here.</summary>
internal enum MetricType
{
    /// <summary>Goes up and down.</summary>
    [JsonStringEnumMemberName("gauge")]
    Gauge,

    /// <summary>Only grows.</summary>
    [JsonStringEnumMemberName("counter")]
    Counter,

    /// <summary>1 for each state that holds and 0 for the others; the label that names the state is called as the family.</summary>
    [JsonStringEnumMemberName("stateset")]
    StateSet,
}

/// <summary>A part of the daemon that has numbers for <c>/metrics</c>. Reads never wait. Thread safe.</summary>
internal interface IMetricSource
{
    /// <summary>The numbers as they are now.</summary>
    IEnumerable<MetricFamily> Collect();
}
