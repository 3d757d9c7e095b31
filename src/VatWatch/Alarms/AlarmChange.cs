using VatWatch.Time;

namespace VatWatch.Alarms;

/// <summary>One transition of one alarm: a line of the journal.</summary>
/// <param name="Before">State it left.</param>
/// <param name="Status">The alarm after the change.</param>
/// <param name="Stamp">When.</param>
/// <param name="By">Who, for an act of a person; null for the daemon's own.</param>
/// <param name="Announce">Whether the dyer's phone is told.</param>
public sealed record AlarmChange(AlarmState Before, AlarmStatus Status, Stamp Stamp, string? By, bool Announce);
