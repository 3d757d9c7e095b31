using System.Text.Encodings.Web;
using System.Text.Json;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Conditions.Stored;

/// <summary>
/// Keeps conditions in the store, so that what a vat was like can be looked up afterwards and copied elsewhere. They can be worked out from the
/// readings again, so a few seconds of them may be lost at a kill.
/// </summary>
public static class ConditionTable
{
    /// <summary>At most this many rows; about a quarter of a gigabyte, two years of one vat that changes every minute.</summary>
    public const int MostRows = 1_000_000;

    /// <summary>Writes conditions, each once even when it is handed in again, and removes at most twice as many of the oldest: those past <paramref name="keep"/> or past <see cref="MostRows"/>.</summary>
    /// <param name="transaction">Where to write.</param>
    /// <param name="conditions">In order.</param>
    /// <param name="keep">How long they are kept; "now" is the newest trusted label among those written.</param>
    public static void Append(StoreTransaction transaction, IReadOnlyList<VatCondition> conditions, TimeSpan keep)
    {
        foreach (var condition in conditions)
        {
            transaction.Sql.Execute(
                """
                INSERT INTO condition (utc, utc_trusted, vat, state, reasons, numbers) SELECT $utc, $trusted, $vat, $state, $reasons, $numbers
                WHERE NOT EXISTS (SELECT 1 FROM condition WHERE utc = $utc AND vat = $vat)
                """,
                ("$utc", StoredTime.Of(condition.Stamp.Utc)),
                ("$trusted", condition.Stamp.UtcTrusted ? 1L : 0L),
                ("$vat", condition.Vat.Value),
                ("$state", condition.State.Word()),
                ("$reasons", JsonSerializer.Serialize(condition.Reasons, Plain)),
                ("$numbers", JsonSerializer.Serialize(ConditionNumbers.Of(condition), Plain)));
        }

        Trim(transaction, conditions, keep);
    }

    /// <summary>Up to <paramref name="max"/> conditions that were written after the one numbered <paramref name="id"/>, in order. For copying them elsewhere.</summary>
    public static IReadOnlyList<StoredCondition> After(StoreReader reader, long id, int max) => reader.Guard(() => reader.Sql.Query(
        $"SELECT {Columns} FROM condition WHERE id > $id ORDER BY id LIMIT $max", Read, ("$id", id), ("$max", (long)max)));

    /// <summary>Conditions of a vat from <paramref name="from"/> up to, not including, <paramref name="to"/>, in order of their label.</summary>
    public static IReadOnlyList<StoredCondition> Between(StoreReader reader, VatId vat, DateTimeOffset from, DateTimeOffset to) => reader.Guard(() => reader.Sql.Query(
        $"SELECT {Columns} FROM condition WHERE utc >= $from AND utc < $to AND vat = $vat ORDER BY utc, id",
        Read,
        ("$from", StoredTime.Of(from)),
        ("$to", StoredTime.Of(to)),
        ("$vat", vat.Value)));

    /// <summary>
    /// States and margins of a vat up to, not including, <paramref name="to"/>, in order of their label, beginning with the one that held at <paramref name="from"/>.
    /// Streamed; the reader must stay open.
    /// </summary>
    public static IEnumerable<StoredState> States(StoreReader reader, VatId vat, DateTimeOffset from, DateTimeOffset to)
    {
        using var rows = reader.Sql.Stream(
            """
            SELECT utc, state, CASE WHEN typeof(numbers) = 'text' AND json_valid(numbers) THEN json_extract(numbers, '$.marginMillivolts') END FROM condition
            WHERE utc >= coalesce((SELECT max(utc) FROM condition WHERE utc <= $from AND vat = $vat), $from) AND utc < $to AND vat = $vat ORDER BY utc, id
            """,
            row => new StoredState(StoredTime.Utc(row.GetInt64(0)), EnumWord.Find<VatState>(row.GetString(1)) ?? VatState.Unknown, row.IsDBNull(2) ? null : row.GetDouble(2)),
            ("$from", StoredTime.Of(from)),
            ("$to", StoredTime.Of(to)),
            ("$vat", vat.Value)).GetEnumerator();
        while (reader.Guard(rows.MoveNext))
        {
            yield return rows.Current;
        }
    }

    /// <summary>Number of the last condition before the first one whose label is at or after <paramref name="from"/>; 0 when there is none before.</summary>
    public static long Before(StoreReader reader, DateTimeOffset from) => reader.Guard(() =>
        reader.Sql.Whole("SELECT min(id) - 1 FROM condition WHERE utc >= $from", ("$from", StoredTime.Of(from)))
        ?? reader.Sql.Whole("SELECT max(id) FROM condition")
        ?? 0);

    /// <remarks>By age nothing goes before there are conditions half as old, since a clock that leapt ahead makes all of them old at once.</remarks>
    private static void Trim(StoreTransaction transaction, IReadOnlyList<VatCondition> added, TimeSpan keep)
    {
        var limit = 2L * added.Count;
        transaction.Sql.Execute(
            "DELETE FROM condition WHERE id IN (SELECT id FROM condition WHERE id <= (SELECT max(id) FROM condition) - $most ORDER BY id LIMIT $limit)",
            ("$most", (long)MostRows),
            ("$limit", limit));
        var trusted = added.Where(condition => condition.Stamp.UtcTrusted).Select(condition => condition.Stamp.Utc).ToList();
        if (trusted.Count > 0 && trusted.Max() - DateTimeOffset.MinValue > keep)
        {
            transaction.Sql.Execute(
                """
                DELETE FROM condition WHERE id IN (SELECT id FROM condition WHERE utc < $until ORDER BY utc LIMIT $limit)
                    AND EXISTS (SELECT 1 FROM condition WHERE utc >= $until AND utc < $half)
                """,
                ("$until", StoredTime.Of(trusted.Max() - keep)),
                ("$half", StoredTime.Of(trusted.Max() - keep / 2)),
                ("$limit", limit));
        }
    }

    private static StoredCondition Read(StoreRow row) => new(
        row.GetInt64("id"),
        row.Moment("utc"),
        row.Flag("utc_trusted"),
        new VatId(row.Name("vat")),
        row.GetString("state"),
        JsonSerializer.Deserialize<List<string>>(row.GetString("reasons")) ?? [],
        JsonSerializer.Deserialize<Dictionary<string, double>>(row.GetString("numbers")) ?? []);

    private const string Columns = "id, utc, utc_trusted, vat, state, reasons, numbers";

    /// <summary>Degree signs and the like as they are; nothing here goes into a page.</summary>
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
}

/// <summary>The little of a kept condition that a long chart needs.</summary>
/// <param name="Utc">When it was worked out; it held until the next one.</param>
/// <param name="MarginMillivolts">Margin of reduction, mV; null when it was not known.</param>
public readonly record struct StoredState(DateTimeOffset Utc, VatState State, double? MarginMillivolts);

/// <summary>A vat's condition as it was kept.</summary>
/// <param name="Id">Row; grows with every one kept and is never given twice.</param>
/// <param name="Utc">When it was worked out.</param>
/// <param name="UtcTrusted">Whether the wall clock was known to be right.</param>
/// <param name="Reasons">Why, in sentences in the dyer's units, weightiest first.</param>
/// <param name="Numbers">The numbers that were known, by the names of <see cref="ConditionNumbers"/>.</param>
public sealed record StoredCondition(
    long Id, DateTimeOffset Utc, bool UtcTrusted, VatId Vat, string State, IReadOnlyList<string> Reasons, IReadOnlyDictionary<string, double> Numbers);
