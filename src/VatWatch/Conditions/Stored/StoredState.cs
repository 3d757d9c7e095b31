namespace VatWatch.Conditions.Stored;

/// <summary>The little of a kept condition that a long chart needs.</summary>
/// <param name="Utc">When it was worked out; it held until the next one.</param>
/// <param name="State">The state.</param>
/// <param name="MarginMillivolts">Margin of reduction, mV; null when it was not known.</param>
public readonly record struct StoredState(DateTimeOffset Utc, VatState State, double? MarginMillivolts);
