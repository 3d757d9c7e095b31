using VatWatch.Notifications;

namespace VatWatch.Pipeline;

/// <summary>A sentence for one contact.</summary>
/// <param name="Contact">The contact's id, which is the channel of the outbox.</param>
/// <param name="Notification">The sentence.</param>
internal readonly record struct Message(string Contact, Notification Notification);
