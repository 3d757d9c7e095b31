namespace VatWatch.Notifications.Contacts;

/// <summary>How a contact is told again while nobody has acknowledged an alarm.</summary>
/// <param name="Every">Wait between two tellings; 1 min to 24 h.</param>
/// <param name="Most">Tellings after the first; 1 to 100.</param>
public sealed record ContactRepeat(TimeSpan Every, int Most);
