namespace VatWatch.Conditions;

/// <summary>A time ahead with its uncertainty band (about 90 %).</summary>
/// <param name="Early">Early edge.</param>
/// <param name="Middle">Best estimate.</param>
/// <param name="Late">Late edge; null when it may never happen.</param>
public sealed record Forecast(TimeSpan Early, TimeSpan Middle, TimeSpan? Late);
