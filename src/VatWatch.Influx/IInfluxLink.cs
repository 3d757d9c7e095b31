namespace VatWatch.Influx;

/// <summary>Takes points to a server.</summary>
internal interface IInfluxLink
{
    /// <summary>Sends lines of the line protocol in one request and tells what came of it; throws only when cancelled.</summary>
    Task<WriteReply> WriteAsync(IReadOnlyList<string> lines, CancellationToken cancel);
}

/// <summary>What came of one request.</summary>
/// <param name="Kind">What to do about it.</param>
/// <param name="Reason">The server's or the network's reason as a clause; empty when accepted.</param>
/// <param name="RetryAfter">How long the server asks to wait; null when it does not say.</param>
/// <param name="Malformed">The server did not understand the points (400), as opposed to understanding and not wanting them (422).</param>
internal readonly record struct WriteReply(WriteReplyKind Kind, string Reason = "", TimeSpan? RetryAfter = null, bool Malformed = false);

/// <summary>What to do after a request.</summary>
internal enum WriteReplyKind
{
    /// <summary>204: the server has every point.</summary>
    Accepted,

    /// <summary>413: send it in smaller parts.</summary>
    TooLarge,

    /// <summary>400 or 422: some points are wrong; find them.</summary>
    BadPoints,

    /// <summary>429, 5xx, no answer: wait and send the same again.</summary>
    Away,

    /// <summary>401, 403, 404 and what no InfluxDB says: only a person can mend it; wait and try again.</summary>
    Refused,
}
