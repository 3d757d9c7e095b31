namespace VatWatch.Daemon.Web.Health;

/// <summary>One number of a family.</summary>
/// <param name="Value">The number.</param>
/// <param name="Labels">What tells it from the others of its family.</param>
internal sealed record MetricSample(double Value, params IReadOnlyList<(string Name, string Value)> Labels);
