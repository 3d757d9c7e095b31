using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Readings that were taken before the clock was right: their rows stand where the wrong label put them, and never change. Where the same run
/// learned the time, the right label is worked out when they are read: the moment at which the run's monotonic clock showed zero, by the
/// trusted clock, plus the monotonic time of the reading. Not thread safe.
/// </summary>
internal sealed class TimestampCorrection
{
    /// <summary>
    /// SQL for circumstance <c>c</c>: the origin of the first trusted circumstance after it in its run, else of the last before it, else NULL.
    /// </summary>
    public const string RightOrigin = """
        coalesce(
            (SELECT t.origin FROM circumstance t WHERE t.run = c.run AND t.utc_trusted = 1 AND t.id > c.id ORDER BY t.id LIMIT 1),
            (SELECT t.origin FROM circumstance t WHERE t.run = c.run AND t.utc_trusted = 1 AND t.id < c.id ORDER BY t.id DESC LIMIT 1))
        """;

    private readonly SqlSession _sql;
    private readonly List<Wrong> _wrong;

    /// <summary>Finds out which circumstances have a wrong label that can be put right.</summary>
    public TimestampCorrection(SqlSession sql)
    {
        _sql = sql;
        _wrong = sql.Query(
            $"SELECT c.id, c.origin, p.vat, p.id, {RightOrigin} FROM circumstance c JOIN probe p ON p.id = c.probe WHERE c.utc_trusted = 0",
            row => row.IsDBNull(4) ? null : new Wrong(row.GetInt64(0), Clamped(row.GetInt64(4), 0) - Clamped(row.GetInt64(1), 0), row.GetString(2), row.GetInt64(3))).OfType<Wrong>().ToList();
    }

    /// <summary>A condition that leaves their rows out of a read by id; empty when there are none.</summary>
    public string Excluded => _wrong.Count == 0 ? "" : $" AND circumstance NOT IN ({string.Join(',', _wrong.Select(one => one.MeasurementContext))})";

    /// <summary>Their readings whose right label is from <paramref name="from"/> up to, not including, <paramref name="to"/> (µs of the key), in order of it.</summary>
    public IReadOnlyList<StoredMeasurement> Rows(MeasurementContextCache rows, VatId? vat, long? probe, long from, long to) => [.. _wrong
        .Where(one => (vat is null || one.Vat == vat.Value.Value) && (probe is null || one.Probe == probe))
        .SelectMany(one => Rows(rows, one, from, to))
        .Where(row => MeasurementKey.Micros(row.Measurement.Stamp.Utc) >= from && MeasurementKey.Micros(row.Measurement.Stamp.Utc) < to)
        .OrderBy(row => row.Measurement.Stamp.Utc)
        .ThenBy(row => row.Key)];

    private List<StoredMeasurement> Rows(MeasurementContextCache rows, Wrong one, long from, long to)
    {
        var shift = one.Shift;
        return _sql.Query(
            $"SELECT {MeasurementContextCache.Columns} FROM measurement WHERE id >= $from AND id < $to AND circumstance = $circumstance",
            rows.Read,
            ("$from", MeasurementKey.First(Clamped(from, -shift - MeasurementTable.LargestSkew))),
            ("$to", MeasurementKey.First(Clamped(to, -shift + MeasurementTable.LargestSkew))),
            ("$circumstance", one.MeasurementContext));
    }

    private static long Clamped(long micros, long by) => (long)Int128.Clamp((Int128)micros + by, MeasurementKey.SmallestMicros, MeasurementKey.LargestMicros);

    private sealed record Wrong(long MeasurementContext, long Shift, string Vat, long Probe);
}
