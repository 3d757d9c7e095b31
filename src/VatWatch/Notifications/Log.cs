using Microsoft.Extensions.Logging;

namespace VatWatch.Notifications;

/// <summary>Sentences of the ways to contacts and of listening to peers; events 6200 to 6299.</summary>
internal static partial class Log
{
    [LoggerMessage(6200, LogLevel.Warning, "Contact '{Contact}': {Reason}; messages wait in the outbox, next try in {Seconds} s, then less and less often")]
    public static partial void ContactFails(this ILogger log, string contact, string reason, double seconds);

    [LoggerMessage(6201, LogLevel.Information, "Contact '{Contact}' is reached again: {Words}")]
    public static partial void ContactWorks(this ILogger log, string contact, string words);

    [LoggerMessage(6202, LogLevel.Error, "Contact '{Contact}': message {Id} was refused for good and goes out no more: {Reason}")]
    public static partial void DeadLettered(this ILogger log, string contact, long id, string reason);

    [LoggerMessage(6203, LogLevel.Error, "Outbox of contact '{Contact}' cannot be used ({Reason}); next try in {Seconds} s")]
    public static partial void OutboxFailed(this ILogger log, string contact, string reason, double seconds);

    [LoggerMessage(6204, LogLevel.Information, "Outbox of contact '{Contact}' can be used again")]
    public static partial void OutboxWorks(this ILogger log, string contact);

    [LoggerMessage(6205, LogLevel.Warning, "The chart for a mail about '{Vat}' was not ready in time or failed ({Reason}); the mail goes without it")]
    public static partial void NoChart(this ILogger log, string vat, string reason);

    [LoggerMessage(6210, LogLevel.Warning, "The watch of '{Site}' cannot be heard: {Reason}")]
    public static partial void PeerUnheard(this ILogger log, string site, string reason);

    [LoggerMessage(6211, LogLevel.Information, "The watch of '{Site}' is listened for at {Broker}")]
    public static partial void PeerListens(this ILogger log, string site, string broker);
}
