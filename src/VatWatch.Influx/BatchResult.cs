namespace VatWatch.Influx;

/// <summary>What came of a batch.</summary>
/// <param name="Accepted">Points the server has taken.</param>
/// <param name="Aside">Points it will never take, each with its reason.</param>
/// <param name="Stopped">Why the batch is not done with and has to be sent again; null when it is.</param>
internal sealed record BatchResult(int Accepted, IReadOnlyList<(string Line, string Reason)> Aside, WriteReply? Stopped);
