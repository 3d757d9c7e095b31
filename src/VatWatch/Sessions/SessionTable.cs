using VatWatch.Sessions.Entries;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Sessions;

/// <summary>
/// Sessions as the store keeps them. Monotonic times of an earlier run of the daemon come back as they were; they compare only within one run, so
/// lengths across a restart go by the labels.
/// </summary>
public static class SessionTable
{
    /// <summary>Begins a session under the next free name of its day. The caller has seen that none is open.</summary>
    public static Session Start(StoreTransaction transaction, VatId vat, DateOnly day, Stamp now, string by, SessionDetails details)
    {
        var taken = transaction.Sql.Query("SELECT id FROM session WHERE vat = $vat", row => row.GetString(0), ("$vat", vat.Value)).ToHashSet(StringComparer.Ordinal);
        var id = Enumerable.Range(1, int.MaxValue).Select(number => SessionId.Of(day, number)).First(free => !taken.Contains(free.Value));
        transaction.Sql.Execute(
            """
            INSERT INTO session (vat, id, run, started, monotonic, utc_trusted, by) VALUES ($vat, $id, $run, $started, $monotonic, $trusted, $by)
            """,
            ("$vat", vat.Value),
            ("$id", id.Value),
            ("$run", transaction.Run),
            ("$started", StoredTime.Of(now.Utc)),
            ("$monotonic", now.Monotonic.Ticks),
            ("$trusted", now.UtcTrusted ? 1L : 0L),
            ("$by", by));
        Describe(transaction, vat, id, details);
        return Find(transaction.Sql, vat, id)!;
    }

    /// <summary>Ends a session; one that has ended stays as it is.</summary>
    public static void End(StoreTransaction transaction, VatId vat, SessionId id, DateTimeOffset at) => transaction.Sql.Execute(
        "UPDATE session SET ended = max($at, started) WHERE vat = $vat AND id = $id AND ended IS NULL",
        ("$vat", vat.Value),
        ("$id", id.Value),
        ("$at", StoredTime.Of(at)));

    /// <summary>Ends a session at another moment than before, or lets it go on (null).</summary>
    internal static void EndAgain(StoreTransaction transaction, VatId vat, SessionId id, DateTimeOffset? at) => transaction.Sql.Execute(
        "UPDATE session SET ended = $at WHERE vat = $vat AND id = $id",
        ("$vat", vat.Value),
        ("$id", id.Value),
        ("$at", at is { } moment ? StoredTime.Of(moment) : null));

    /// <summary>Takes a session out of the table; no entry may belong to it any more.</summary>
    internal static void Remove(StoreTransaction transaction, VatId vat, SessionId id) =>
        transaction.Sql.Execute("DELETE FROM session WHERE vat = $vat AND id = $id", ("$vat", vat.Value), ("$id", id.Value));

    /// <summary>Name of a session that began between two others of the vat; null when they follow each other.</summary>
    internal static string? Between(StoreTransaction transaction, VatId vat, SessionId one, SessionId other) => transaction.Sql.Query(
        """
        SELECT id FROM session
        WHERE vat = $vat AND id NOT IN ($one, $other)
          AND started >= (SELECT min(started) FROM session WHERE vat = $vat AND id IN ($one, $other))
          AND started <= (SELECT max(started) FROM session WHERE vat = $vat AND id IN ($one, $other))
        ORDER BY started LIMIT 1
        """,
        row => row.GetString(0),
        ("$vat", vat.Value),
        ("$one", one.Value),
        ("$other", other.Value)).FirstOrDefault();

    /// <summary>Takes up what the dyer says of a session.</summary>
    /// <returns>False when there is no such session.</returns>
    public static bool Describe(StoreTransaction transaction, VatId vat, SessionId id, SessionDetails details) => transaction.Sql.Execute(
        "UPDATE session SET yarn_grams = $yarn, fibre = $fibre, shade = $shade, verdict = $verdict, dip_minutes = $dip, airing_minutes = $airing, dips = $dips WHERE vat = $vat AND id = $id",
        ("$vat", vat.Value),
        ("$id", id.Value),
        ("$yarn", details.YarnGrams),
        ("$fibre", details.Fibre?.ToString().ToLowerInvariant()),
        ("$shade", details.Shade),
        ("$verdict", details.Verdict?.Word()),
        ("$dip", details.Wish?.DipMinutes),
        ("$airing", details.Wish?.AiringMinutes),
        ("$dips", (long?)details.Wish?.Dips)) > 0;

    /// <summary>Lets a session begin earlier: something that belongs to it happened before anybody wrote.</summary>
    public static void BeginEarlier(StoreTransaction transaction, VatId vat, SessionId id, Stamp at) => transaction.Sql.Execute(
        "UPDATE session SET started = $at, monotonic = $monotonic WHERE vat = $vat AND id = $id AND started > $at",
        ("$vat", vat.Value),
        ("$id", id.Value),
        ("$at", StoredTime.Of(at.Utc)),
        ("$monotonic", at.Monotonic.Ticks));

    /// <summary>The session of a vat that goes on; null when none does.</summary>
    public static Session? Open(StoreReader reader, VatId vat) => reader.Guard(() => Open(reader.Sql, vat));

    /// <summary>The same, from inside the writer's transaction.</summary>
    public static Session? Open(StoreTransaction transaction, VatId vat) => Open(transaction.Sql, vat);

    /// <summary>One session; null when there is none of that name.</summary>
    public static Session? Find(StoreReader reader, VatId vat, SessionId id) => reader.Guard(() => Find(reader.Sql, vat, id));

    /// <summary>The same, from inside the writer's transaction.</summary>
    public static Session? Find(StoreTransaction transaction, VatId vat, SessionId id) => Find(transaction.Sql, vat, id);

    /// <summary>The newest sessions, newest first.</summary>
    /// <param name="reader">Where to read.</param>
    /// <param name="vat">The vat; null for all.</param>
    /// <param name="most">At most this many.</param>
    /// <param name="verdict">Only those the dyer spoke of so; null for all.</param>
    /// <param name="before">Only those that began before this moment; null for all.</param>
    public static IReadOnlyList<Session> Newest(StoreReader reader, VatId? vat, int most, Verdict? verdict = null, DateTimeOffset? before = null) => reader.Guard(() => reader.Sql.Query(
        $"""
        SELECT {Columns} FROM session
        WHERE ($vat IS NULL OR vat = $vat) AND ($verdict IS NULL OR verdict = $verdict) AND ($before IS NULL OR started < $before)
        ORDER BY started DESC, row DESC LIMIT $most
        """,
        Read,
        ("$vat", vat?.Value),
        ("$verdict", verdict?.Word()),
        ("$before", before is { } moment ? StoredTime.Of(moment) : null),
        ("$most", (long)most)));

    private static Session? Open(SqlSession sql, VatId vat) => sql.Query(
        $"SELECT {Columns} FROM session WHERE vat = $vat AND ended IS NULL ORDER BY row DESC LIMIT 1", Read, ("$vat", vat.Value)).FirstOrDefault();

    private static Session? Find(SqlSession sql, VatId vat, SessionId id) => sql.Query(
        $"SELECT {Columns} FROM session WHERE vat = $vat AND id = $id", Read, ("$vat", vat.Value), ("$id", id.Value)).FirstOrDefault();

    private const string Columns = "vat, id, started, monotonic, utc_trusted, ended, by, yarn_grams, fibre, shade, verdict, dip_minutes, airing_minutes, dips";

    private static Session Read(StoreRow row) => new()
    {
        Vat = new(row.GetString("vat")),
        Id = new(row.GetString("id")),
        Started = new Stamp(row.Moment("started"), TimeSpan.FromTicks(row.GetInt64("monotonic")), row.Flag("utc_trusted")),
        Ended = row.OptionalMoment("ended"),
        By = row.GetString("by"),
        Details = new SessionDetails(
            row.OptionalDouble("yarn_grams"),
            row.OptionalString("fibre") is { } fibre ? (fibre == "protein" ? Fibre.Protein : Fibre.Cellulose) : null,
            row.OptionalString("shade"),
            EnumWord.Find<Verdict>(row.OptionalString("verdict")))
        {
            Wish = WishOf(row),
        },
    };

    private static DipWish? WishOf(StoreRow row)
    {
        var wish = new DipWish(row.OptionalDouble("dip_minutes"), row.OptionalDouble("airing_minutes"), row.OptionalInt32("dips"));
        return wish.IsEmpty ? null : wish;
    }
}
