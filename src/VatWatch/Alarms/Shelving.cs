using VatWatch.Vats;

namespace VatWatch.Alarms;

/// <summary>Somebody, or the daemon itself, sets an alarm aside for a limited time.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Alarm">The alarm.</param>
/// <param name="By">Who; null for the daemon itself.</param>
/// <param name="For">How long; cut down to the longest that the alarm's settings allow.</param>
/// <param name="Reason">Why, in words; must not be empty.</param>
public sealed record Shelving(VatId Vat, AlarmName Alarm, string? By, TimeSpan For, string Reason);
