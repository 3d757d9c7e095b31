using VatWatch.Store.Series;


namespace VatWatch.Daemon.Web.Drawing;

/// <summary>What was recorded of a vat in one stretch of time, summed up for a drawing.</summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC; may lie ahead of now.</param>
/// <param name="Traces">Each probe with its columns, in the order of the configuration.</param>
/// <param name="Marks">What happened, in order of time.</param>
internal sealed record VatTraces(DateTimeOffset From, DateTimeOffset To, IReadOnlyList<ProbeColumns> Traces, IReadOnlyList<ChartMark> Marks);

/// <summary>The columns of one probe.</summary>
/// <param name="Columns">In order of time; those without a value are absent.</param>
internal sealed record ProbeColumns(ProbeDefinition Probe, IReadOnlyList<MeasurementColumn> Columns);
