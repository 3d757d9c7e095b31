using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>
/// Puts right what taps made of a day's work: two sessions that were one, and one that was none. Nothing that was written is lost, and a note in the log book
/// says what was done. Each answers null, or why not as a sentence for the person who asked.
/// </summary>
public static class SessionMending
{
    /// <summary>Makes one session of two that follow each other: it has the name of the earlier, which is given back, and everything of both.</summary>
    /// <param name="work">The writer's transaction.</param>
    /// <param name="one">One of them.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="whyNot">Why not; null when it was done.</param>
    public static Session? Join(StoreTransaction work, VatId vat, SessionId one, SessionId other, string by, Stamp now, out string? whyNot)
    {
        whyNot = one == other ? "A session cannot be joined to itself."
            : SessionTable.Find(work, vat, one) is null || SessionTable.Find(work, vat, other) is null ? "One of the two sessions is not in the log book; perhaps it was joined or taken out before."
            : SessionTable.Between(work, vat, one, other) is { } between ? $"Session {between} lies between the two; join that one first."
            : null;
        if (whyNot is not null)
        {
            return null;
        }

        var (first, second) = (SessionTable.Find(work, vat, one)!, SessionTable.Find(work, vat, other)!);
        var (kept, gone) = first.Started.Utc <= second.Started.Utc ? (first, second) : (second, first);
        SessionTable.Describe(work, vat, kept.Id, kept.Details with
        {
            YarnGrams = kept.Details.YarnGrams ?? gone.Details.YarnGrams,
            Fibre = kept.Details.Fibre ?? gone.Details.Fibre,
            Shade = kept.Details.Shade ?? gone.Details.Shade,
            Verdict = gone.Details.Verdict ?? kept.Details.Verdict,
        });
        EntryTable.Move(work, vat, gone.Id, kept.Id);
        SessionTable.Remove(work, vat, gone.Id);
        SessionTable.EndAgain(work, vat, kept.Id, kept.Ended is { } ended && gone.Ended is { } later ? ended > later ? ended : later : null);
        Note(work, vat, kept.Id, by, now, $"session {gone.Id}{Said(gone)} was joined to this one");
        return SessionTable.Find(work, vat, kept.Id);
    }

    /// <summary>
    /// Makes two sessions of one, the second from a dip on: undoes <see cref="Join"/>, and parts what nobody ended. Fibre and wished dips go with both; what else was said stays with the first.
    /// The second is given back.
    /// </summary>
    /// <param name="work">The writer's transaction.</param>
    /// <param name="dip">The entry of the dip that begins the second.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="zone">The site's clock, which names the second after its day.</param>
    /// <param name="whyNot">Why not; null when it was done.</param>
    public static Session? TakeApart(StoreTransaction work, VatId vat, SessionId id, long dip, string by, Stamp now, TimeZoneInfo zone, out string? whyNot)
    {
        var session = SessionTable.Find(work, vat, id);
        var entries = session is null ? [] : EntryTable.Of(work, vat, id);
        var begins = entries.FirstOrDefault(entry => entry is { Kind: EntryKind.DipIn, Withdrawn: null } && entry.Id == dip);
        var before = entries.Where(entry => begins is not null && entry.At.Utc < begins.At.Utc).ToList();
        whyNot = session is null ? "That session is not in the log book; perhaps it was joined or taken out before."
            : begins is null ? "That dip does not stand in the session; choose one that does."
            : !before.Any(entry => entry is { Kind: EntryKind.DipIn, Withdrawn: null }) ? "The session begins with that dip; choose a later one."
            : SessionTally.Of(before).InSince is not null ? "Goods were in the vat when that dip began; choose a dip that begins after they came out."
            : null;
        if (whyNot is not null)
        {
            return null;
        }

        var details = SessionDetails.None with { Fibre = session!.Details.Fibre, Wish = session.Details.Wish };
        var day = DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(begins!.At.Utc, zone).DateTime);
        SessionTable.EndAgain(work, vat, id, before.Max(entry => entry.At.Utc));
        var second = SessionTable.Start(work, vat, day, begins.At, session.By, details).Id;
        EntryTable.Move(work, vat, id, second, begins.At.Utc);
        SessionTable.EndAgain(work, vat, second, session.Ended);
        Note(work, vat, second, by, now, $"this session was taken apart from {id}");
        return SessionTable.Find(work, vat, second);
    }

    /// <summary>Takes out a session that was none: its dips are withdrawn, what else was written stands alone in the log book.</summary>
    /// <param name="work">The writer's transaction.</param>
    /// <param name="by">Who says so.</param>
    public static string? TakeOut(StoreTransaction work, VatId vat, SessionId id, string by, Stamp now)
    {
        if (SessionTable.Find(work, vat, id) is not { } session)
        {
            return "That session is not in the log book; perhaps it was taken out before.";
        }

        foreach (var dip in EntryTable.Of(work, vat, id).Where(entry => entry is { Withdrawn: null, Kind: EntryKind.DipIn or EntryKind.DipOut }))
        {
            EntryTable.Withdraw(work, vat, dip.Id, by, now.Utc);
        }

        EntryTable.Move(work, vat, id, null);
        SessionTable.Remove(work, vat, id);
        Note(work, vat, null, by, now, $"session {id}{Said(session)} was taken out of the log book");
        return null;
    }

    private static string Said(Session session)
    {
        string?[] said = [session.Details.Shade, session.Details.YarnGrams is { } grams ? $"{grams:0} g" : null, session.Details.Verdict is { } verdict ? $"came out {verdict.Word()}" : null];
        return said.Any(one => one is { Length: > 0 }) ? $" ({string.Join(", ", said.Where(one => one is { Length: > 0 }))})" : "";
    }

    private static void Note(StoreTransaction work, VatId vat, SessionId? session, string by, Stamp now, string text) =>
        EntryTable.Write(work, new EntryDraft(vat, EntryKind.Note, by) { Text = text }, session, now);
}
