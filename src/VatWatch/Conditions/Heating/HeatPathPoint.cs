namespace VatWatch.Conditions.Heating;

/// <summary>Where the liquor is foreseen to be at one moment, with a band of about 90 %.</summary>
/// <param name="After">From now.</param>
/// <param name="LowC">Lower edge, °C.</param>
/// <param name="MiddleC">Best estimate, °C.</param>
/// <param name="HighC">Upper edge, °C.</param>
public readonly record struct HeatPathPoint(TimeSpan After, double LowC, double MiddleC, double HighC);
