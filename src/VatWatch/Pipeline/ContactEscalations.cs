using VatWatch.Notifications.Contacts;

namespace VatWatch.Pipeline;

/// <summary>All that is to be kept of one contact's calls.</summary>
internal sealed record ContactEscalations(string Contact, IReadOnlyList<StoredEscalation> Calls);
