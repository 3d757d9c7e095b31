namespace VatWatch.Store;

/// <summary>A point that a server refused.</summary>
/// <param name="Utc">When it was refused.</param>
/// <param name="Reason">The server's reason, in its words.</param>
/// <param name="Line">The point as it was sent.</param>
public sealed record RefusedPoint(DateTimeOffset Utc, string Reason, string Line);
