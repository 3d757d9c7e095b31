namespace VatWatch.Vats;

/// <summary>The working band of a vat and the limit above which the indigo suffers, °C.</summary>
/// <param name="LowC">Coldest liquor that dyes well.</param>
/// <param name="HighC">Warmest liquor wanted.</param>
/// <param name="LimitC">At or above this the overheat alarm stands.</param>
public sealed record TemperatureBand(double LowC, double HighC, double LimitC);
