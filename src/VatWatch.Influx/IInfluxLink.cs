namespace VatWatch.Influx;

/// <summary>Takes points to a server.</summary>
internal interface IInfluxLink
{
    /// <summary>Sends lines of the line protocol in one request and tells what came of it; throws only when cancelled.</summary>
    Task<WriteReply> WriteAsync(IReadOnlyList<string> lines, CancellationToken cancel);
}
