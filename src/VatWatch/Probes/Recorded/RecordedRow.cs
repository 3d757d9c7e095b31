namespace VatWatch.Probes.Recorded;

/// <summary>One reading of a recorded log.</summary>
/// <param name="Line">Number of the line it began on, from 1.</param>
/// <param name="Time">When, UTC.</param>
/// <param name="Probe">The probe, as the log names it.</param>
/// <param name="Value">In <paramref name="Unit"/>, or in the probe's own unit where the log has none; null when the log says that there was none.</param>
/// <param name="Unit">Unit of the value, where the log has a column for it.</param>
/// <param name="Quality">Quality of the value, where the log has a column for it; without one a value is good and none is missing.</param>
/// <param name="Reason">Why it is not good, where the log has a column for it.</param>
public readonly record struct RecordedRow(
    int Line, DateTimeOffset Time, ProbeId Probe, double? Value, string? Unit = null, Quality? Quality = null, string? Reason = null)
{
    /// <summary>What the probe gave.</summary>
    public Sample Sample => (Value, Quality) switch
    {
        ({ } value, null or Vats.Quality.Good) => Sample.Good(value),
        ({ } value, Vats.Quality.Suspect) => Sample.Suspect(value, Reason ?? "marked as suspect in the log"),
        (_, Vats.Quality.Fault) => Sample.Fault(Reason ?? "marked as a fault in the log"),
        _ => Sample.Missing(Reason ?? "no value in the log"),
    };
}
