namespace VatWatch.Influx;

/// <summary>How the copy on the server stands.</summary>
/// <param name="Trouble">Why the server does not get anything just now, as a clause; null while it does.</param>
/// <param name="NeedsPerson">The server refuses what is sent, which does not pass by itself.</param>
/// <param name="Waiting">Readings that are stored and not yet with the server; counted up to <see cref="InfluxForwarder.MostCounted"/>.</param>
/// <param name="Sent">Points the server has taken since the start.</param>
/// <param name="SetAside">Points it refused for good since the start.</param>
public sealed record ForwarderState(string? Trouble, bool NeedsPerson, long Waiting, long Sent, long SetAside)
{
    /// <summary>At the start.</summary>
    public static ForwarderState Beginning { get; } = new(null, false, 0, 0, 0);
}
