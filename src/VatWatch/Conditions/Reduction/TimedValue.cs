namespace VatWatch.Conditions.Reduction;

/// <summary>A value at a monotonic time.</summary>
internal readonly record struct TimedValue(TimeSpan At, double Value);
