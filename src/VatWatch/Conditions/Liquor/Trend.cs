namespace VatWatch.Conditions.Liquor;

/// <summary>A least-squares line through recent values.</summary>
/// <param name="PerHour">Slope, per hour.</param>
/// <param name="StandardError">Standard error of the slope, per hour.</param>
/// <param name="Newest">The line's value at the newest point.</param>
/// <param name="Scatter">Standard deviation of the points about the line.</param>
public readonly record struct Trend(double PerHour, double StandardError, double Newest, double Scatter);
