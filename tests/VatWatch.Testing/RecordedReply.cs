namespace VatWatch.Testing;

/// <summary>A reply of InfluxDB 2 to a write, as its documentation gives them (docs.influxdata.com, "Write API", "Troubleshoot writes"); messages are our own.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Body">Body; null for none.</param>
/// <param name="RetryAfter">The header's value; null for none.</param>
internal sealed record RecordedReply(int Status, string? Body = null, string? RetryAfter = null)
{
    public static RecordedReply Accepted { get; } = new(204);

    public static RecordedReply Malformed { get; } = new(400, Json("invalid", "unable to parse points: bad timestamp"));

    public static RecordedReply Unauthorized { get; } = new(401, Json("unauthorized", "unauthorized access"));

    public static RecordedReply Forbidden { get; } = new(403, Json("forbidden", "insufficient permissions for write"));

    public static RecordedReply NoBucket { get; } = new(404, Json("not found", "bucket not found"));

    public static RecordedReply TooLarge { get; } = new(413, Json("request too large", "cannot read data: points batch is too large"));

    public static RecordedReply Unprocessable { get; } = new(422, Json("unprocessable entity", "partial write: field type conflict"));

    public static RecordedReply InternalError { get; } = new(500, Json("internal error", "unexpected error writing points"));

    /// <summary>429 with the wait in seconds or as a date.</summary>
    public static RecordedReply TooMany(string? retryAfter) => new(429, Json("too many requests", "org has exceeded its write limit"), retryAfter);

    /// <summary>503 with the wait in seconds or as a date.</summary>
    public static RecordedReply Unavailable(string? retryAfter) => new(503, Json("unavailable", "the server is temporarily unable to accept writes"), retryAfter);

    /// <summary>What a proxy in front of a server that is down sends.</summary>
    public static RecordedReply BadGateway { get; } = new(502, "<html><body>Bad Gateway</body></html>");

    private static string Json(string code, string message) => $$"""{"code":"{{code}}","message":"{{message}}"}""";
}
