namespace VatWatch.Charts.Traces;

/// <summary>One value on a time axis.</summary>
/// <param name="Seconds">Since the start of the record, by the wall clock.</param>
/// <param name="Value">In the canonical unit.</param>
internal readonly record struct TracePoint(double Seconds, double Value);

/// <summary>A stretch of values that a line may join without claiming what was not read.</summary>
/// <param name="Suspect">True when the line is drawn as doubtful.</param>
/// <param name="Points">In order of time; a single one is a dot.</param>
internal sealed record TraceRun(bool Suspect, IReadOnlyList<TracePoint> Points);
