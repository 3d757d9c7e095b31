namespace VatWatch.Science;

/// <summary>
/// A computed value and whether it lies outside the range in which its equation was checked. The unit is named by whoever returns it.
/// </summary>
/// <param name="Value">The number.</param>
/// <param name="Extrapolated">True where the inputs were possible but outside the range of the source's tables.</param>
public readonly record struct Estimate(double Value, bool Extrapolated);
