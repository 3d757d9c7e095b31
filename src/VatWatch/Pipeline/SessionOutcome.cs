using VatWatch.Sessions;

namespace VatWatch.Pipeline;

/// <summary>What became of an act on the log book.</summary>
/// <param name="Session">The session it belongs to, as it stands now.</param>
/// <param name="Entry">The entry, when there is one.</param>
/// <param name="Refused">Why nothing was done, as a sentence; null when it was done.</param>
public sealed record SessionOutcome(Session? Session, SessionEntry? Entry, string? Refused)
{
    /// <summary>Not done.</summary>
    public static SessionOutcome Not(string why) => new(null, null, why);
}
