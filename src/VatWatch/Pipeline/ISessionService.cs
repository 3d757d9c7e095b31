using VatWatch.Sessions;

namespace VatWatch.Pipeline;

/// <summary>
/// Where the dyer's log book is written. Each act completes when it is on disk; what cannot be is refused with a sentence. Reading is done from the store
/// (<see cref="SessionTable"/>, <see cref="EntryTable"/>). Thread safe.
/// </summary>
public interface ISessionService
{
    /// <summary>Begins a session of a vat that has none open.</summary>
    Task<SessionOutcome> StartAsync(VatId vat, string by, SessionDetails details, CancellationToken cancel);

    /// <summary>Ends the open session of a vat; the goods must be out.</summary>
    Task<SessionOutcome> EndAsync(VatId vat, string by, CancellationToken cancel);

    /// <summary>Takes up what the dyer says of a session, open or ended, in place of what was said before.</summary>
    Task<SessionOutcome> DescribeAsync(VatId vat, SessionId session, SessionDetails details, CancellationToken cancel);

    /// <summary>Writes an entry into the open session. The first dip begins a session when none is open; any other entry then stands alone.</summary>
    Task<SessionOutcome> WriteAsync(EntryDraft draft, CancellationToken cancel);

    /// <summary>Withdraws an entry that was a slip.</summary>
    Task<SessionOutcome> WithdrawAsync(VatId vat, long entry, string by, CancellationToken cancel);
}
