using VatWatch.Notifications.Contacts;

namespace VatWatch.Pipeline;

/// <summary>All that is to be kept of one contact's calls.</summary>
internal sealed record ContactCalls(string Contact, IReadOnlyList<StoredCall> Calls);
