namespace VatWatch.Vats;

/// <summary>The wanted pH of the liquor, at the liquor's own temperature.</summary>
public sealed record PhBand(double Low, double High);
