namespace VatWatch.Influx;

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
