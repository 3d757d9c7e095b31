using VatWatch.Measurements;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Turns rows of the table of readings back into measurements; looks each dictionary row up once. A reading whose label was not trusted gets
/// the right one where its run learned the time; see <see cref="TimestampCorrection"/>. Not thread safe.
/// </summary>
internal sealed class MeasurementContextCache(SqlSession sql)
{
    private readonly Dictionary<long, MeasurementContext?> _known = [];

    /// <summary>Columns that <see cref="Read"/> expects.</summary>
    public const string Columns = "id, circumstance, skew, raw, value";

    /// <summary>The measurement of a row, with the run it was taken in and the row of its probe.</summary>
    public StoredMeasurement Read(StoreRow row)
    {
        var key = row.GetInt64(0);
        var circumstance = Find(row.GetInt64(1));
        var micros = MeasurementKey.MicrosOf(key);
        var monotonic = micros - circumstance.Origin - row.GetInt64(2);
        var label = circumstance.RightOrigin is { } origin ? Math.Clamp(origin + monotonic, MeasurementKey.SmallestMicros, MeasurementKey.LargestMicros) : micros;
        var raw = PackedNumber.Unpack(row, 3);
        var value = Value(row, 3, 4);
        return new(
            key,
            circumstance.Run,
            circumstance.Probe,
            new Measurement(
                circumstance.Vat,
                circumstance.ProbeId,
                circumstance.Quantity,
                new(MeasurementKey.UtcOfMicros(label), TimeSpan.FromTicks(monotonic * TimeSpan.TicksPerMicrosecond), circumstance.UtcTrusted),
                raw,
                value,
                circumstance.Quality,
                circumstance.Reason,
                circumstance.Calibration));
    }

    /// <summary>The value of a row: NULL is "the same as raw", an empty blob is "none".</summary>
    public static double? Value(StoreRow row, int raw, int value) =>
        row.IsDBNull(value) ? PackedNumber.Unpack(row, raw) : row.IsEmptyBlob(value) ? null : PackedNumber.Unpack(row, value);

    private MeasurementContext Find(long id)
    {
        if (!_known.TryGetValue(id, out var found))
        {
            _known.Add(id, found = Load(id));
        }

        return found ?? throw new InvalidDataException($"it refers to circumstance {id}, which is not there or cannot be read");
    }

    private MeasurementContext? Load(long id)
    {
        var rows = sql.Query(
            $"""
            SELECT c.run, c.probe, c.origin, c.utc_trusted, c.quality, r.words, c.calibration, p.vat, p.probe, p.measures,
                CASE c.utc_trusted WHEN 0 THEN {TimestampCorrection.RightOrigin} END
            FROM circumstance c JOIN probe p ON p.id = c.probe LEFT JOIN reason r ON r.id = c.reason
            WHERE c.id = $id
            """,
            row => new MeasurementContext(
                row.GetInt64(0),
                row.GetInt64(1),
                row.GetInt64(2),
                row.GetInt64(3) != 0,
                QualityCode.Parse(row.GetInt64(4)),
                row.IsDBNull(5) ? null : row.GetString(5),
                row.IsDBNull(6) ? null : row.GetInt64(6),
                new VatId(row.GetString(7)),
                new ProbeId(row.GetString(8)),
                EnumWord.Parse<Quantity>(row.GetString(9)),
                row.IsDBNull(10) ? null : row.GetInt64(10)),
            ("$id", id));
        return rows.SingleOrDefault();
    }

    private sealed record MeasurementContext(
        long Run,
        long Probe,
        long Origin,
        bool UtcTrusted,
        Quality Quality,
        string? Reason,
        long? Calibration,
        VatId Vat,
        ProbeId ProbeId,
        Quantity Quantity,
        long? RightOrigin);
}
