using Microsoft.Data.Sqlite;
using SQLitePCL;
using VatWatch.Store.Schema;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Disk;

/// <summary>Looks through a whole store for damage and for rows that contradict each other.</summary>
internal static class StoreCheck
{
    /// <summary>One sentence a fault; empty when the store is sound. Reads everything, so it takes a while on a large store.</summary>
    public static IReadOnlyList<string> Run(SqlSession sql)
    {
        var findings = Damage(sql);
        var damage = findings.Where(found => !StoreFile.IsOfOneValue(found)).ToList();
        if (damage.Count > 0)
        {
            // Counting rows of a damaged tree would only say the same in other words, or never end.
            return [.. damage.Select(found => $"SQLite found damage: {found}.")];
        }

        var faults = sql.Query("PRAGMA foreign_key_check", row => (Table: row.GetString(0), Parent: row.GetString(2)))
            .GroupBy(fault => fault)
            .Select(group => $"{group.Count()} rows of {group.Key.Table} refer to a row of {group.Key.Parent} that is not there.");
        return [.. findings.Select(found => $"SQLite found a {found}."), .. faults, .. FieldCheck.Run(sql), .. Questions.Select(question => Ask(sql, question.Sql, question.Fault)).OfType<string>()];
    }

    private static List<string> Damage(SqlSession sql)
    {
        try
        {
            return [.. sql.Query($"PRAGMA integrity_check({MostSentences})", row => row.GetString(0)).Where(found => found != "ok")];
        }
        catch (SqliteException caught) when (caught.SqliteErrorCode == raw.SQLITE_CORRUPT)
        {
            // A page that even the check cannot walk over.
            return [caught.Message.TrimEnd('.')];
        }
    }

    private static string? Ask(SqlSession sql, string question, string fault) => sql.Whole(question) is { } count and > 0 ? $"{count} {fault}." : null;

    private static readonly (string Sql, string Fault)[] Questions =
    [
        ("SELECT count(*) FROM measurement WHERE circumstance NOT IN (SELECT id FROM circumstance)",
            "readings refer to a circumstance that is not there"),
        ("SELECT count(*) FROM measurement WHERE typeof(raw) = 'text' OR typeof(value) = 'text' OR (typeof(raw) = 'blob' AND length(raw) <> 8) OR (typeof(value) = 'blob' AND length(value) NOT IN (0, 8))",
            "readings hold something that is not a packed number"),
        ("SELECT count(*) FROM circumstance WHERE quality NOT BETWEEN 0 AND 3",
            "circumstances have a quality that is not 0 to 3"),
        ("SELECT count(*) FROM circumstance WHERE quality > 0 AND reason IS NULL",
            "circumstances are not good and give no reason"),
        ("SELECT count(*) FROM late WHERE measurement NOT IN (SELECT id FROM measurement)",
            "late readings are not there"),
        ($"SELECT count(*) FROM rollup_1 WHERE (id & {RollupTable.LargestProbe}) NOT IN (SELECT id FROM probe)",
            "minute rollups are of a probe that is not there"),
        ($"SELECT count(*) FROM rollup_15 WHERE (id & {RollupTable.LargestProbe}) NOT IN (SELECT id FROM probe)",
            "quarter-hour rollups are of a probe that is not there"),
        (RollupsAgainstReadings("rollup_1", 1), "minute rollups do not count what the readings of their time count"),
        (RollupsAgainstReadings("rollup_15", 15), "quarter-hour rollups do not count what the readings of their time count"),
    ];

    /// <summary>
    /// Buckets younger than the oldest reading, counted from both sides, but for the one of the oldest trusted reading: older ones of it may have gone while readings
    /// with a wrong label, which are not as old as they look, stay. Values that are blobs (none, or NaN) and infinite ones are not in rollups.
    /// </summary>
    private static string RollupsAgainstReadings(string table, int minutes) => $"""
        WITH counted AS (
            SELECT ((((m.id >> 6) - (((m.id >> 6) % {minutes * 60_000_000L} + {minutes * 60_000_000L}) % {minutes * 60_000_000L})) / 60000000) << 16) | c.probe AS bucket,
                sum(typeof(coalesce(m.value, m.raw)) IN ('integer', 'real') AND coalesce(m.value, m.raw) BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308) AS count, max(c.utc_trusted) AS trusted
            FROM measurement m JOIN circumstance c ON c.id = m.circumstance GROUP BY 1)
        SELECT count(*) FROM counted LEFT JOIN {table} r ON r.id = counted.bucket
        WHERE counted.bucket >> 16 > (SELECT min(bucket) >> 16 FROM counted) AND counted.bucket >> 16 IS NOT (SELECT min(bucket) >> 16 FROM counted WHERE trusted) AND coalesce(r.count, -1) <> coalesce(counted.count, 0)
        """;

    private const int MostSentences = 20;
}
