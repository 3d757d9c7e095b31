using VatWatch.Vats;

namespace VatWatch.Probes.Recorded;

/// <summary>One reading of a recorded log.</summary>
/// <param name="Line">Number of the line it began on, from 1.</param>
/// <param name="Time">When, UTC.</param>
/// <param name="Probe">The probe, as the log names it.</param>
/// <param name="Value">In the probe's own unit; null when the log says that there was none.</param>
public readonly record struct RecordedRow(int Line, DateTimeOffset Time, ProbeId Probe, double? Value);
