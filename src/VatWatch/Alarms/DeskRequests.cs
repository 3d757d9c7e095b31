using VatWatch.Store;

namespace VatWatch.Alarms;

/// <summary>
/// What another process asks of the daemon: rows of the store that a verb adds, the daemon carries out and answers. None is answered twice.
/// </summary>
public static class DeskRequests
{
    /// <summary>Answered requests that are kept; whoever asked has read the answer long before.</summary>
    private const int Kept = 200;

    /// <summary>Adds one; its row.</summary>
    public static long Add(StoreTransaction transaction, AlarmRequest request, DateTimeOffset utc)
    {
        transaction.Sql.Execute(
            "INSERT INTO desk_request (utc, act, vat, alarm, by, minutes, words) VALUES ($utc, $act, $vat, $alarm, $by, $minutes, $words)",
            ("$utc", StoredTime.Of(utc)),
            ("$act", request.Kind.Word()),
            ("$vat", request.Vat ?? ""),
            ("$alarm", request.Alarm),
            ("$by", request.By ?? ""),
            ("$minutes", request.Minutes),
            ("$words", request.Text));
        return transaction.Sql.Whole("SELECT last_insert_rowid()")!.Value;
    }

    /// <summary>Those that wait for an answer, oldest first, at most <paramref name="count"/>; the request is null when its act is none of ours.</summary>
    public static IReadOnlyList<(long Row, DateTimeOffset Utc, AlarmRequest? Request)> Waiting(StoreReader reader, int count) => reader.Guard(() => reader.Sql.Query(
        "SELECT id, utc, act, vat, alarm, by, minutes, words FROM desk_request WHERE done IS NULL ORDER BY id LIMIT $count",
        row => (row.GetInt64(0), StoredTime.Utc(row.GetInt64(1)), EnumWord.Find<AlarmActKind>(row.GetString(2)) is { } kind
            ? new AlarmRequest(kind, row.GetString(3), row.IsDBNull(4) ? null : row.GetString(4), row.GetString(5), "verb")
            {
                Minutes = row.IsDBNull(6) ? null : row.GetDouble(6),
                Text = row.IsDBNull(7) ? null : row.GetString(7),
            }
            : null),
        ("$count", (long)count)));

    /// <summary>Writes the answer of one that waits, and forgets the oldest answered ones.</summary>
    public static void Answer(StoreTransaction transaction, long row, bool done, string sentence)
    {
        transaction.Sql.Execute(
            "UPDATE desk_request SET done = $done, answer = $answer WHERE id = $row AND done IS NULL", ("$done", done ? 1L : 0L), ("$answer", sentence), ("$row", row));
        transaction.Sql.Execute("DELETE FROM desk_request WHERE done IS NOT NULL AND id <= $row - $kept", ("$row", row), ("$kept", (long)Kept));
    }

    /// <summary>The answer; null while it waits.</summary>
    public static (bool Done, string Sentence)? AnswerTo(StoreReader reader, long row) => reader.Guard(() => reader.Sql.Query(
        "SELECT done, answer FROM desk_request WHERE id = $row AND done IS NOT NULL",
        found => ((bool Done, string Sentence)?)(found.GetInt64(0) != 0, found.GetString(1)),
        ("$row", row)).FirstOrDefault());

    /// <summary>Takes back one that nobody has answered; false when it was answered meanwhile.</summary>
    public static bool Withdraw(StoreTransaction transaction, long row) =>
        transaction.Sql.Execute("DELETE FROM desk_request WHERE id = $row AND done IS NULL", ("$row", row)) > 0;
}
