namespace VatWatch.Influx;

/// <summary>What came of one request.</summary>
/// <param name="Kind">What to do about it.</param>
/// <param name="Reason">The server's or the network's reason as a clause; empty when accepted.</param>
/// <param name="RetryAfter">How long the server asks to wait; null when it does not say.</param>
/// <param name="Malformed">The server did not understand the points (400), as opposed to understanding and not wanting them (422).</param>
internal readonly record struct WriteReply(WriteReplyKind Kind, string Reason = "", TimeSpan? RetryAfter = null, bool Malformed = false);
