namespace VatWatch.Conditions.Heating;

/// <summary>The liquor over one short stretch, usually a minute.</summary>
/// <param name="At">Mean of the sample times, monotonic.</param>
/// <param name="LiquorC">Mean temperature, °C.</param>
/// <param name="RoomC">Mean room temperature, °C; null without a usable probe.</param>
/// <param name="Count">Samples behind it.</param>
internal readonly record struct LiquorMean(TimeSpan At, double LiquorC, double? RoomC, int Count);
