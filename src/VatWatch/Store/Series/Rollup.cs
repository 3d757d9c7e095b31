namespace VatWatch.Store.Series;

/// <summary>What the readings of one probe amount to within one minute or quarter of an hour.</summary>
/// <param name="Start">Start of the bucket, UTC.</param>
/// <param name="Count">Readings that have a finite value; the other numbers are about these.</param>
/// <param name="Worst">Worst quality of all readings, with or without a value.</param>
/// <param name="First">Value that arrived first; null when there is none, like the next three.</param>
/// <param name="Last">Value that arrived last.</param>
public sealed record Rollup(DateTimeOffset Start, long Count, Quality Worst, double? First, double? Last, double? Min, double? Max, double Sum)
{
    /// <summary>Arithmetic mean of the values; null when there is none.</summary>
    public double? Mean => Count == 0 ? null : Sum / Count;
}
