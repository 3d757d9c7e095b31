using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Rules.Heat;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>
/// Writes the dyer's log book to the disk, and then lets the watch and whoever looks know. Each act completes when it is on disk; what cannot be is refused with
/// a sentence. Times are the vat's. Reading is done from the store (<see cref="SessionTable"/>, <see cref="EntryTable"/>). Thread safe.
/// </summary>
/// <param name="vats">Vats that may be written about, with the liquor that each is configured with, L.</param>
/// <param name="noted">Told of each new entry with its session, when it is on disk.</param>
/// <param name="changed">Told of each change.</param>
/// <param name="clock">The vat's clock.</param>
/// <param name="zone">Where a day begins.</param>
/// <param name="log">Where a disk that refuses is logged.</param>
/// <param name="units">The units of its sentences; null for litres and grams.</param>
public sealed class SessionService(
    WatchStore store, IReadOnlyDictionary<VatId, double> vats, Action<SessionEntry, Session?> noted, Action<SessionChange> changed, WatchClock clock, TimeZoneInfo zone, ILogger<SessionService> log, DisplayUnits? units = null)
{
    /// <summary>A person with wet hands is not kept waiting longer than this.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(10);

    /// <summary>Begins a session of a vat that has none open.</summary>
    public Task<SessionOutcome> StartAsync(VatId vat, string by, SessionDetails details, CancellationToken cancel) =>
        ActAsync(vat, SessionRules.Person(by) ?? SessionRules.WhyNot(details), work =>
        {
            var now = clock.Now();
            return Current(work, vat, now) is { } open
                ? SessionOutcome.Not($"Session {open.Id} is open; end it first.")
                : new SessionOutcome(SessionTable.Start(work, vat, Day(now), now, by.Trim(), details), null, null);
        }, cancel);

    /// <summary>Ends the open session of a vat; the goods must be out.</summary>
    public Task<SessionOutcome> EndAsync(VatId vat, string by, CancellationToken cancel) => ActAsync(vat, SessionRules.Person(by), work =>
    {
        if (SessionTable.Open(work, vat) is not { } open)
        {
            return SessionOutcome.Not("No session is open.");
        }

        if (SessionTally.Of(EntryTable.Of(work, vat, open.Id)).InSince is not null)
        {
            return SessionOutcome.Not("The yarn is still in the vat, as far as the log book knows; tap Dip out first.");
        }

        SessionTable.End(work, vat, open.Id, clock.Now().Utc);
        return new SessionOutcome(SessionTable.Find(work, vat, open.Id), null, null);
    }, cancel);

    /// <summary>Takes up what the dyer says of a session, open or ended, in place of what was said before.</summary>
    public Task<SessionOutcome> DescribeAsync(VatId vat, SessionId session, SessionDetails details, CancellationToken cancel) =>
        ActAsync(vat, SessionRules.WhyNot(details), work => SessionTable.Describe(work, vat, session, details)
            ? new SessionOutcome(SessionTable.Find(work, vat, session), null, null)
            : SessionOutcome.Not($"There is no session {session} of vat '{vat}'."), cancel);

    /// <summary>Makes one session of two that follow each other (<see cref="SessionMending.Join"/>).</summary>
    public Task<SessionOutcome> JoinAsync(VatId vat, SessionId one, SessionId other, string by, CancellationToken cancel) =>
        ActAsync(vat, SessionRules.Person(by), work => new(SessionMending.Join(work, vat, one, other, by.Trim(), clock.Now(), out var whyNot), null, whyNot), cancel);

    /// <summary>Makes two sessions of one (<see cref="SessionMending.TakeApart"/>).</summary>
    public Task<SessionOutcome> TakeApartAsync(VatId vat, SessionId session, long dip, string by, CancellationToken cancel) =>
        ActAsync(vat, SessionRules.Person(by), work => new(SessionMending.TakeApart(work, vat, session, dip, by.Trim(), clock.Now(), zone, out var whyNot), null, whyNot), cancel);

    /// <summary>Takes out a session that was none (<see cref="SessionMending.TakeOut"/>).</summary>
    public Task<SessionOutcome> TakeOutAsync(VatId vat, SessionId session, string by, CancellationToken cancel) =>
        ActAsync(vat, SessionRules.Person(by), work => new(null, null, SessionMending.TakeOut(work, vat, session, by.Trim(), clock.Now())), cancel);

    /// <summary>Writes an entry into the open session. The first dip begins a session when none is open; any other entry then stands alone.</summary>
    public async Task<SessionOutcome> WriteAsync(EntryDraft draft, CancellationToken cancel)
    {
        var isNew = false;
        var whyNot = (draft.Kind == EntryKind.DipOut ? null : SessionRules.WhyNot(draft, null, units)) ?? (vats.TryGetValue(draft.Vat, out var litres) ? SessionRules.WhyNotInto(litres, draft, units) : null);
        var outcome = await ActAsync(draft.Vat, whyNot, work => Write(work, draft, out isNew), cancel);
        if (isNew && outcome.Entry is { } entry)
        {
            noted(entry, outcome.Session);
        }

        return outcome;
    }

    /// <summary>Withdraws an entry that was a slip; yarn that did not go in did not come out either.</summary>
    public async Task<SessionOutcome> WithdrawAsync(VatId vat, long entry, string by, CancellationToken cancel)
    {
        var outcome = await ActAsync(vat, SessionRules.Person(by), work =>
            Withdraw(work, vat, entry, by.Trim()) is { } withdrawn
                ? new SessionOutcome(withdrawn.Session is { } session ? SessionTable.Find(work, vat, session) : null, withdrawn, null)
                : SessionOutcome.Not("That entry does not stand in the log book; perhaps it was withdrawn before."), cancel);
        if (outcome.Entry is { Kind: EntryKind.HeaterOn } heater)
        {
            // What was expected of a heater that was not switched on after all is expected no more.
            noted(heater with { Kind = EntryKind.HeaterOff, At = clock.Now(), ReadyBy = null }, outcome.Session);
        }

        return outcome;
    }

    private SessionEntry? Withdraw(StoreTransaction work, VatId vat, long id, string by)
    {
        var now = clock.Now().Utc;
        var withdrawn = EntryTable.Withdraw(work, vat, id, by, now);
        if (withdrawn is { Kind: EntryKind.DipIn, Session: { } session }
            && EntryTable.Of(work, vat, session).FirstOrDefault(one => one.Id > id && one is { Withdrawn: null, Kind: EntryKind.DipIn or EntryKind.DipOut }) is { Kind: EntryKind.DipOut } itsOut)
        {
            EntryTable.Withdraw(work, vat, itsOut.Id, by, now);
        }

        return withdrawn;
    }

    private SessionOutcome Write(StoreTransaction work, EntryDraft draft, out bool isNew)
    {
        isNew = false;
        if (draft.Tap is { } tap && EntryTable.OfTap(work, draft.Vat, tap) is { } before)
        {
            return new SessionOutcome(before.Session is { } id ? SessionTable.Find(work, draft.Vat, id) : null, before, null);
        }

        var now = clock.Now();
        var at = draft.At is { } then ? now.Plus(then - now.Utc) : now;
        var open = Current(work, draft.Vat, now);
        var tally = open is null ? null : SessionTally.Of(EntryTable.Of(work, draft.Vat, open.Id));
        if ((SessionRules.WhyNot(draft, tally, units) ?? SessionRules.WhyNotAt(draft.Kind, at.Utc, now.Utc, tally) ?? NoRoom(work, draft, now)) is { } refused)
        {
            return SessionOutcome.Not(refused);
        }

        isNew = true;
        open = SessionAt(work, draft, open, at);
        return new SessionOutcome(open, EntryTable.Write(work, draft with { By = draft.By.Trim() }, open?.Id, at, ReadyBy(draft, at)), null);
    }

    private static string? NoRoom(StoreTransaction work, EntryDraft draft, Stamp now)
    {
        if (draft.Photo is not { } photo)
        {
            return null;
        }

        var (lastDay, bytes) = EntryTable.PhotosKept(work, now.Utc - TimeSpan.FromDays(1));
        return photo.WhyNotBeside(lastDay, bytes);
    }

    /// <summary>The session an entry belongs to: a dip begins one, or lets it begin earlier; what else happened before the session is not of it.</summary>
    private Session? SessionAt(StoreTransaction work, EntryDraft draft, Session? open, Stamp at)
    {
        if (draft.Kind != EntryKind.DipIn)
        {
            return open?.Started.Utc > at.Utc ? null : open;
        }

        if (open is null)
        {
            return SessionTable.Start(work, draft.Vat, Day(at), at, draft.By.Trim(), SessionDetails.None);
        }

        SessionTable.BeginEarlier(work, draft.Vat, open.Id, at);
        return SessionTable.Find(work, draft.Vat, open.Id);
    }

    /// <summary>The open session; one that was forgotten ends at its last entry.</summary>
    private static Session? Current(StoreTransaction work, VatId vat, Stamp now)
    {
        if (SessionTable.Open(work, vat) is not { } open)
        {
            return null;
        }

        var last = EntryTable.Of(work, vat, open.Id).Select(entry => entry.At.Utc).Append(open.Started.Utc).Max();
        if (now.Utc - last < SessionRules.Forgotten)
        {
            return open;
        }

        SessionTable.End(work, vat, open.Id, last);
        return null;
    }

    private async Task<SessionOutcome> ActAsync(VatId vat, string? whyNot, Func<StoreTransaction, SessionOutcome> work, CancellationToken cancel)
    {
        if (!vats.ContainsKey(vat))
        {
            return SessionOutcome.Not($"There is no vat '{vat}'.");
        }

        if (whyNot is not null)
        {
            return SessionOutcome.Not(whyNot);
        }

        try
        {
            var outcome = await store.WriteAsync(work, cancel).WaitAsync(Limit, TimeProvider.System, cancel);
            if (outcome.Refused is null)
            {
                changed(new SessionChange(vat));
            }

            return outcome;
        }
        catch (Exception caught) when (caught is StoreUnavailableException or TimeoutException)
        {
            Log.LogBookNotWritten(log, vat.Value, caught.Message);
            return SessionOutcome.Not("The log book could not be written to the disk, so this may be missing; look at it and try again.");
        }
    }

    private DateTimeOffset? ReadyBy(EntryDraft draft, Stamp now) => draft.ReadyAt is { } time ? new ReadyBy(time, TimeSpan.Zero, zone).Next(now.Utc) : null;

    private DateOnly Day(Stamp now) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(now.Utc, zone).DateTime);
}

/// <summary>What became of an act on the log book.</summary>
/// <param name="Session">The session it belongs to, as it stands now.</param>
/// <param name="Refused">Why nothing was done, as a sentence; null when it was done.</param>
public sealed record SessionOutcome(Session? Session, SessionEntry? Entry, string? Refused)
{
    /// <summary>Not done.</summary>
    public static SessionOutcome Not(string why) => new(null, null, why);
}
