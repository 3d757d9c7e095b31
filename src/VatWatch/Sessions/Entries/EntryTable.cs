using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Sessions.Entries;

/// <summary>Entries of the log book as the store keeps them.</summary>
public static class EntryTable
{
    /// <summary>Writes an entry. <see cref="SessionRules"/> have been asked before.</summary>
    public static SessionEntry Write(StoreTransaction transaction, EntryDraft draft, SessionId? session, Stamp now, DateTimeOffset? readyBy = null)
    {
        transaction.Sql.Execute(
            """
            INSERT INTO session_entry (vat, session, run, utc, monotonic, utc_trusted, kind, by, material, amount, text, ready_by, tap, subject, strength)
            VALUES ($vat, $session, $run, $utc, $monotonic, $trusted, $kind, $by, $material, $amount, $text, $ready, $tap, $subject, $strength)
            """,
            ("$vat", draft.Vat.Value),
            ("$session", session?.Value),
            ("$run", transaction.Run),
            ("$utc", StoredTime.Of(now.Utc)),
            ("$monotonic", now.Monotonic.Ticks),
            ("$trusted", now.UtcTrusted ? 1L : 0L),
            ("$kind", draft.Kind.Word()),
            ("$by", draft.By),
            ("$material", draft.Material?.Word()),
            ("$amount", draft.Amount),
            ("$text", draft.Text),
            ("$ready", readyBy is { } ready ? StoredTime.Of(ready) : null),
            ("$tap", draft.Tap),
            ("$subject", draft.Reading?.Word() ?? draft.Sign?.Word() ?? draft.Goods?.Word()),
            ("$strength", draft.Strength));
        var id = transaction.Sql.Whole("SELECT last_insert_rowid()")!.Value;
        if (draft.Photo is { } photo)
        {
            transaction.Sql.Execute("INSERT INTO photo (entry, media_type, bytes) VALUES ($entry, 'image/jpeg', $bytes)", ("$entry", id), ("$bytes", photo.Jpeg));
        }

        return Find(transaction, draft.Vat, id)!;
    }

    /// <summary>The entry that a tap has written before; null when it has written none.</summary>
    public static SessionEntry? OfTap(StoreTransaction transaction, VatId vat, string tap) => transaction.Sql.Query(
        $"SELECT {Columns} FROM session_entry WHERE vat = $vat AND tap = $tap", Read, ("$vat", vat.Value), ("$tap", tap)).FirstOrDefault();

    /// <summary>Withdraws an entry of a vat that stands; null when there is none.</summary>
    public static SessionEntry? Withdraw(StoreTransaction transaction, VatId vat, long id, string by, DateTimeOffset at) =>
        transaction.Sql.Execute(
            "UPDATE session_entry SET withdrawn = $at, withdrawn_by = $by WHERE id = $id AND vat = $vat AND withdrawn IS NULL",
            ("$id", id),
            ("$vat", vat.Value),
            ("$by", by),
            ("$at", StoredTime.Of(at))) > 0
            ? Find(transaction, vat, id)
            : null;

    /// <summary>Gives the entries of one session to another, or to none.</summary>
    internal static void Move(StoreTransaction transaction, VatId vat, SessionId from, SessionId? to) => transaction.Sql.Execute(
        "UPDATE session_entry SET session = $to WHERE vat = $vat AND session = $from", ("$vat", vat.Value), ("$from", from.Value), ("$to", to?.Value));

    /// <summary>Gives the entries of one session from a moment on, UTC, to another.</summary>
    internal static void Move(StoreTransaction transaction, VatId vat, SessionId from, SessionId to, DateTimeOffset since) => transaction.Sql.Execute(
        "UPDATE session_entry SET session = $to WHERE vat = $vat AND session = $from AND utc >= $since",
        ("$vat", vat.Value),
        ("$from", from.Value),
        ("$to", to.Value),
        ("$since", StoredTime.Of(since)));

    /// <summary>Entries of a session, oldest first, withdrawn ones among them.</summary>
    public static IReadOnlyList<SessionEntry> Of(StoreReader reader, VatId vat, SessionId session) => reader.Guard(() => Of(reader.Sql, vat, session));

    /// <summary>The same, from inside the writer's transaction.</summary>
    public static IReadOnlyList<SessionEntry> Of(StoreTransaction transaction, VatId vat, SessionId session) => Of(transaction.Sql, vat, session);

    /// <summary>Entries of a vat from <paramref name="from"/> up to, not including, <paramref name="to"/>, in or out of sessions, oldest first.</summary>
    public static IReadOnlyList<SessionEntry> Between(StoreReader reader, VatId vat, DateTimeOffset from, DateTimeOffset to) => reader.Guard(() => reader.Sql.Query(
        $"SELECT {Columns} FROM session_entry WHERE vat = $vat AND utc >= $from AND utc < $to ORDER BY utc, id",
        Read,
        ("$vat", vat.Value),
        ("$from", StoredTime.Of(from)),
        ("$to", StoredTime.Of(to))));

    /// <summary>The newest entry of these kinds that stands, from <paramref name="from"/> on; null without one.</summary>
    public static SessionEntry? Newest(StoreReader reader, VatId vat, DateTimeOffset from, params EntryKind[] kinds) =>
        Between(reader, vat, from, DateTimeOffset.MaxValue).LastOrDefault(entry => entry.Withdrawn is null && kinds.Contains(entry.Kind));

    /// <summary>Every entry of every vat, in the order they were added.</summary>
    internal static IReadOnlyList<SessionEntry> All(StoreReader reader) => reader.Guard(() => reader.Sql.Query($"SELECT {Columns} FROM session_entry ORDER BY id", Read));

    /// <summary>The picture of an entry of a vat that stands; null when it has none.</summary>
    public static (string MediaType, byte[] Bytes)? PhotoOf(StoreReader reader, VatId vat, long entry) => reader.Guard(() => reader.Sql.Query<(string, byte[])?>(
        "SELECT p.media_type, p.bytes FROM photo p JOIN session_entry e ON e.id = p.entry WHERE p.entry = $entry AND e.vat = $vat AND e.withdrawn IS NULL",
        row => (row.GetString(0), row.GetBytes(1)),
        ("$entry", entry),
        ("$vat", vat.Value)).FirstOrDefault());

    /// <summary>How many photographs are kept of the time from <paramref name="from"/> on, and how many bytes all photographs take.</summary>
    internal static (long Since, long Bytes) PhotosKept(StoreTransaction transaction, DateTimeOffset from) => (
        transaction.Sql.Whole("SELECT COUNT(*) FROM photo p JOIN session_entry e ON e.id = p.entry WHERE e.utc >= $from", ("$from", StoredTime.Of(from))) ?? 0,
        transaction.Sql.Whole("SELECT SUM(length(bytes)) FROM photo") ?? 0);

    private static List<SessionEntry> Of(SqlSession sql, VatId vat, SessionId session) => sql.Query(
        $"SELECT {Columns} FROM session_entry WHERE vat = $vat AND session = $session ORDER BY id", Read, ("$vat", vat.Value), ("$session", session.Value));

    private static SessionEntry? Find(StoreTransaction transaction, VatId vat, long id) => transaction.Sql.Query(
        $"SELECT {Columns} FROM session_entry WHERE id = $id AND vat = $vat", Read, ("$id", id), ("$vat", vat.Value)).FirstOrDefault();

    private const string Columns = "id, vat, session, utc, monotonic, utc_trusted, kind, by, material, amount, text, withdrawn, ready_by, subject, strength";

    private static SessionEntry Read(StoreRow row)
    {
        var kind = EnumWord.Find<EntryKind>(row.GetString("kind")) ?? throw new InvalidDataException($"a log book entry is of kind '{row.GetString("kind")}', which this version does not know");
        var subject = row.OptionalString("subject");
        return new()
        {
            Id = row.GetInt64("id"),
            Vat = new(row.GetString("vat")),
            Session = row.OptionalString("session") is { } session ? new SessionId(session) : null,
            At = new Stamp(row.Moment("utc"), TimeSpan.FromTicks(row.GetInt64("monotonic")), row.Flag("utc_trusted")),
            Kind = kind,
            By = row.GetString("by"),
            Material = EnumWord.Find<Material>(row.OptionalString("material")),
            Amount = row.OptionalDouble("amount"),
            Text = row.OptionalString("text"),
            Withdrawn = row.OptionalMoment("withdrawn"),
            ReadyBy = row.OptionalMoment("ready_by"),
            Reading = kind == EntryKind.Reading ? EnumWord.Find<HandReading>(subject) : null,
            Sign = kind == EntryKind.Sign ? EnumWord.Find<Sign>(subject) : null,
            Goods = kind == EntryKind.Goods ? EnumWord.Find<GoodsKind>(subject) : null,
            Strength = row.OptionalDouble("strength"),
        };
    }
}
