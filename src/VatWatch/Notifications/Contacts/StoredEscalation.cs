using VatWatch.Alarms;

namespace VatWatch.Notifications.Contacts;

/// <summary>One alarm as a contact is to be told of it; a row of <c>contact_call</c>.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Alarm">The alarm.</param>
/// <param name="Opened">When it last became unacknowledged, UTC.</param>
/// <param name="Due">When the contact is to be told next, UTC; null for not until something changes.</param>
/// <param name="Told">Whether the contact was told since.</param>
/// <param name="Repeats">How often the contact was told again.</param>
public sealed record StoredEscalation(VatId Vat, AlarmName Alarm, DateTimeOffset Opened, DateTimeOffset? Due, bool Told, int Repeats);
