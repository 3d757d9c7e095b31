namespace VatWatch.Daemon.Web.Health;

/// <summary>Numbers of one kind.</summary>
/// <param name="Name">Name without suffix, lower case with underscores, ending in the unit where there is one.</param>
/// <param name="IsCounter">True for what only grows; false for what goes up and down.</param>
/// <param name="Unit">Unit word that the name ends in, for example "seconds"; empty for none.</param>
/// <param name="Help">One sentence.</param>
/// <param name="Samples">The numbers.</param>
internal sealed record MetricFamily(string Name, bool IsCounter, string Unit, string Help, IReadOnlyList<MetricSample> Samples)
{
    /// <summary>A single number that goes up and down.</summary>
    public static MetricFamily Gauge(string name, string unit, string help, double value) => new(name, false, unit, help, [new(value)]);

    /// <summary>A single number that only grows.</summary>
    public static MetricFamily Counter(string name, string unit, string help, double value) => new(name, true, unit, help, [new(value)]);
}

/// <summary>One number of a family.</summary>
/// <param name="Value">The number.</param>
/// <param name="Labels">What tells it from the others of its family.</param>
internal sealed record MetricSample(double Value, params IReadOnlyList<(string Name, string Value)> Labels);
