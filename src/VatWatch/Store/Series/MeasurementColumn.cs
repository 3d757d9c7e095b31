namespace VatWatch.Store.Series;

/// <summary>The values of one probe within one column of a chart. Drawn as first, min, max, last it loses no spike, however narrow.</summary>
/// <param name="Start">Start of the column, UTC.</param>
/// <param name="End">End of the column, not in it.</param>
/// <param name="Mean">Arithmetic mean of the values.</param>
/// <param name="Count">How many values.</param>
/// <param name="Worst">Worst quality of the readings in it, with or without a value.</param>
/// <param name="BreakBefore">Whether the trace is broken before this column: no value for longer than the gap asked for.</param>
public sealed record MeasurementColumn(
    DateTimeOffset Start,
    DateTimeOffset End,
    double First,
    double Last,
    double Min,
    double Max,
    double Mean,
    long Count,
    Quality Worst,
    bool BreakBefore);
