namespace VatWatch.Influx;

/// <summary>What came of sending history again.</summary>
/// <param name="Sent">Points the server has taken.</param>
/// <param name="Refused">Points it refuses.</param>
/// <param name="FirstRefused">The first of them, with the server's reason; null when there are none.</param>
/// <param name="Failure">Why it ended early, as a clause; null when it did not.</param>
/// <param name="Reached">Everything with a label before this is with the server.</param>
public sealed record BackfillResult(long Sent, long Refused, (string Line, string Reason)? FirstRefused, string? Failure, DateTimeOffset Reached);
