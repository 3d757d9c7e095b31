using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>One session with all that was written in it. Immutable.</summary>
/// <param name="Entries">Its entries, oldest first, withdrawn ones among them.</param>
public sealed record SessionSheet(Session Session, IReadOnlyList<SessionEntry> Entries)
{
    public SessionTally Tally { get; } = SessionTally.Of(Entries);

    /// <summary>Address of its page.</summary>
    public string Href => HrefOf(Session);

    /// <summary>How a form or address names it.</summary>
    public string Name => $"{Session.Vat}/{Session.Id}";

    /// <summary>Address of the page of a session.</summary>
    public static string HrefOf(Session session) => $"/vats/{Uri.EscapeDataString(session.Vat.Value)}/sessions/{session.Id}";

    internal static SessionSheet Of(StoreReader reader, Session session) => new(session, EntryTable.Of(reader, session.Vat, session.Id));

    /// <summary>One session by its name; null when there is none.</summary>
    internal static SessionSheet? Find(StoreReader reader, VatId vat, SessionId id) => SessionTable.Find(reader, vat, id) is { } session ? Of(reader, session) : null;

    /// <summary>The session that goes on; null when none does, or when it was forgotten and the next entry will begin another.</summary>
    internal static SessionSheet? Open(StoreReader reader, VatId vat, DateTimeOffset now)
    {
        if (SessionTable.Open(reader, vat) is not { } session)
        {
            return null;
        }

        var sheet = Of(reader, session);
        var last = sheet.Entries.Select(entry => entry.At.Utc).Append(session.Started.Utc).Max();
        return now - last < SessionRules.Forgotten ? sheet : null;
    }
}
