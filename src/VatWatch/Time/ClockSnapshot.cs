namespace VatWatch.Time;

/// <summary>What one look at the wall clock found.</summary>
/// <param name="Step">How far it was set forward (or back, when negative) since the look before; null when it was not.</param>
/// <param name="Before">What it would show now, had it not been set.</param>
/// <param name="Now">What it shows.</param>
/// <param name="TrustChanged">Whether its labels are trusted now and were not, or the other way round.</param>
public readonly record struct ClockSnapshot(TimeSpan? Step, DateTimeOffset Before, DateTimeOffset Now, bool TrustChanged);
