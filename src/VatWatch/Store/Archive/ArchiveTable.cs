using Microsoft.Data.Sqlite;

namespace VatWatch.Store.Archive;

/// <summary>
/// Which months are in archive files, and how far their readings have left the database: those with a key below <c>removed_to</c> are only in
/// the file. Both change in one transaction, so a reading is read once, whenever it is looked at.
/// </summary>
internal static class ArchiveTable
{
    /// <summary>Months of one vat, or of all, that touch a stretch of keys; in order of time.</summary>
    public static IReadOnlyList<ArchivedMonth> Between(SqlSession sql, VatId? vat, long from, long to) => [.. sql.Query(
            "SELECT vat, month, rows, removed_to, done FROM archive WHERE $vat IS NULL OR vat = $vat ORDER BY month, vat", Read, ("$vat", vat?.Value))
        .Where(one => one.RemovedTo > from && MeasurementKey.AtOrAfter(one.Month.From) < to && MeasurementKey.AtOrAfter(one.Month.To) > from)];

    /// <summary>One month; null when it is not archived.</summary>
    public static ArchivedMonth? Find(SqlSession sql, ArchiveMonth month) => sql.Query(
        "SELECT vat, month, rows, removed_to, done FROM archive WHERE vat = $vat AND month = $month", Read, ("$vat", month.Vat.Value), ("$month", (long)month.Number)).SingleOrDefault();

    /// <summary>Notes a file that is whole; no reading has left the database for it yet.</summary>
    public static void Add(SqlSession sql, ArchiveMonth month, long rows) => sql.Execute(
        "INSERT INTO archive (vat, month, rows, removed_to, done) VALUES ($vat, $month, $rows, $none, 0)",
        ("$vat", month.Vat.Value), ("$month", (long)month.Number), ("$rows", rows), ("$none", long.MinValue));

    /// <summary>Notes that every reading of the file below <paramref name="removedTo"/> has left the database.</summary>
    public static void Advance(SqlSession sql, ArchiveMonth month, long removedTo, bool done) => sql.Execute(
        "UPDATE archive SET removed_to = $to, done = $done WHERE vat = $vat AND month = $month",
        ("$to", removedTo), ("$done", done ? 1L : 0L), ("$vat", month.Vat.Value), ("$month", (long)month.Number));

    /// <summary>Forgets a month.</summary>
    public static void Remove(SqlSession sql, ArchiveMonth month) => sql.Execute(
        "DELETE FROM archive WHERE vat = $vat AND month = $month", ("$vat", month.Vat.Value), ("$month", (long)month.Number));

    private static ArchivedMonth Read(SqliteDataReader row) =>
        new(new ArchiveMonth(new VatId(row.GetString(0)), (int)row.GetInt64(1)), row.GetInt64(2), row.GetInt64(3), row.GetInt64(4) != 0);
}

/// <summary>A month that has an archive file.</summary>
/// <param name="Month">The month.</param>
/// <param name="Rows">Readings in the file.</param>
/// <param name="RemovedTo">Readings with a lower key are no longer in the database.</param>
/// <param name="Done">Whether all have left it.</param>
internal sealed record ArchivedMonth(ArchiveMonth Month, long Rows, long RemovedTo, bool Done);
