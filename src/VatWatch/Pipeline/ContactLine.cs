using VatWatch.Notifications.Contacts;

namespace VatWatch.Pipeline;

/// <summary>What belongs to one contact on the way from an alarm to a person.</summary>
/// <param name="Book">Decides what is told and when.</param>
/// <param name="Desk">What waits to be told.</param>
/// <param name="Ring">Tells the sender that something waits; never waits itself.</param>
internal sealed record ContactLine(EscalationPolicy Book, OutboxQueue Desk, Action Ring);
