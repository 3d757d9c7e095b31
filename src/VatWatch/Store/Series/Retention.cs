using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Removes the oldest readings when they are older than asked for, or when the store has grown past its size. Works inside the writer's
/// transaction. Quarter-hour rollups, calibrations and sessions stay.
/// </summary>
/// <remarks>
/// Three guards against a wrong clock or a wrong setting: only labels that were trusted count as "now"; nothing goes before there are readings at least half as old
/// as those to go, since a clock that leapt ahead makes all of them old at once; and no commit removes more than twice what it adds.
/// </remarks>
internal sealed class Retention(StoreOptions options)
{
    /// <summary>Removes what is due, after <paramref name="added"/> readings of which the newest trusted label is <paramref name="newest"/>.</summary>
    /// <returns>How many readings went.</returns>
    public int Trim(SqlSession sql, DateTimeOffset? newest, int added)
    {
        if (newest is not { } now || added == 0)
        {
            return 0;
        }

        var isLarge = UsedBytes(sql) > options.SizeLimitMegabytes * BytesPerMegabyte;
        var keep = isLarge ? AlwaysKept : options.KeepReadings;
        var readingsUntil = Before(now, keep);
        if (sql.Whole(
            "SELECT 1 FROM measurement WHERE id >= $until AND id < $half LIMIT 1",
            ("$until", MeasurementKey.AtOrAfter(readingsUntil)), ("$half", MeasurementKey.AtOrAfter(Before(now, keep / 2)))) is null)
        {
            return 0;
        }

        var limit = PerAdded * (long)added;
        var removed = sql.Execute(
            $"DELETE FROM measurement WHERE id IN (SELECT id FROM measurement WHERE id < $until AND circumstance NOT IN ({Young}) ORDER BY id LIMIT $limit)",
            ("$until", MeasurementKey.AtOrAfter(readingsUntil)),
            ("$limit", limit));
        if (removed > 0)
        {
            sql.Execute("DELETE FROM late WHERE measurement < (SELECT min(id) FROM measurement)");
        }

        var longUntil = Before(now, options.KeepReadings * LongFactor);
        sql.Execute(
            "DELETE FROM rollup_1 WHERE id IN (SELECT id FROM rollup_1 WHERE id < $until ORDER BY id LIMIT $limit)",
            ("$until", RollupTable.FirstIdFrom(isLarge && removed == 0 ? readingsUntil : longUntil)),
            ("$limit", limit));
        sql.Execute(
            "DELETE FROM alarm_change WHERE id IN (SELECT id FROM alarm_change WHERE utc < $until ORDER BY utc LIMIT $limit)",
            ("$until", StoredTime.Of(longUntil)),
            ("$limit", limit));
        return removed;
    }

    private static DateTimeOffset Before(DateTimeOffset now, TimeSpan age) => now - DateTimeOffset.MinValue > age ? now - age : DateTimeOffset.MinValue;

    /// <summary>Bytes in use; pages that were emptied are used again before the file grows.</summary>
    private static long UsedBytes(SqlSession sql) =>
        (sql.Whole("PRAGMA page_count")!.Value - sql.Whole("PRAGMA freelist_count")!.Value) * sql.Whole("PRAGMA page_size")!.Value;

    /// <summary>A size limit set too small must not eat the night that is being watched.</summary>
    internal static readonly TimeSpan AlwaysKept = TimeSpan.FromDays(7);

    /// <summary>Minute rollups and the alarm journal are kept this many times as long as readings; they are a tenth of the size.</summary>
    private const int LongFactor = 5;

    private const int PerAdded = 2;

    /// <summary>
    /// Circumstances whose wrong label looks old but is not: of the run that holds the oldest reading to be kept, or of a later one. Their
    /// readings get their right label when they are read (<see cref="TimestampCorrection"/>).
    /// </summary>
    private const string Young = """
        SELECT id FROM circumstance WHERE utc_trusted = 0 AND run >= (
            SELECT run FROM circumstance WHERE id = (SELECT circumstance FROM measurement WHERE id >= $until ORDER BY id LIMIT 1))
        """;

    private const long BytesPerMegabyte = 1_000_000;
}
