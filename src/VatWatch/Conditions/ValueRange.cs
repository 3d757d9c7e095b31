namespace VatWatch.Conditions;

/// <summary>A figure from its low to its high edge, in the unit of what it is a range of.</summary>
/// <param name="Low">Low edge.</param>
/// <param name="High">High edge.</param>
public readonly record struct ValueRange(double Low, double High);
