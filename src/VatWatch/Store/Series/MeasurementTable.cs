using VatWatch.Measurements;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Writes readings, their rollups and the dictionaries they refer to, inside the caller's transaction. Remembers what it has written, so it
/// must be thrown away when that transaction is rolled back. For the writer's thread.
/// </summary>
internal sealed class MeasurementTable
{
    private readonly SqlSession _sql;
    private readonly long _run;
    private readonly SqlStatement _insert;
    private readonly Dictionary<(VatId, ProbeId, Quantity), KnownProbe> _probes = [];
    private readonly Dictionary<MeasurementContext, (long Id, long Origin)> _circumstances = [];
    private readonly OpenBuckets[] _buckets;
    private long? _newest;

    /// <summary>A writer for one run.</summary>
    public MeasurementTable(SqlSession sql, long run)
    {
        _sql = sql;
        _run = run;
        _newest = sql.Whole("SELECT max(id) FROM measurement");
        _insert = sql.Statement("INSERT INTO measurement (id, circumstance, skew, raw, value) VALUES (?, ?, ?, ?, ?)");
        _buckets = [.. RollupTable.All.Select(table => new OpenBuckets(sql, table))];
    }

    /// <summary>Writes a batch. It is put in order of time first, because stages hand readings over nearly, but not exactly, in order.</summary>
    public void Add(IReadOnlyList<Measurement> batch)
    {
        foreach (var measurement in IsInOrder(batch) ? batch : (IEnumerable<Measurement>)batch.OrderBy(m => m.Stamp.Utc.UtcTicks))
        {
            Add(measurement);
        }

        foreach (var buckets in _buckets)
        {
            buckets.Merge();
        }
    }

    private static bool IsInOrder(IReadOnlyList<Measurement> batch)
    {
        for (var i = 1; i < batch.Count; i++)
        {
            if (batch[i].Stamp.Utc < batch[i - 1].Stamp.Utc)
            {
                return false;
            }
        }

        return true;
    }

    private void Add(Measurement measurement)
    {
        var micros = MeasurementKey.Micros(measurement.Stamp.Utc);
        var probe = Known(measurement);
        var origin = micros - MeasurementKey.Micros(measurement.Stamp.Monotonic);
        var circumstance = new MeasurementContext(probe.Row, measurement.Stamp.UtcTrusted, measurement.Quality, measurement.Reason, measurement.Calibration);
        if (probe.Circumstance != circumstance || Math.Abs(origin - probe.Origin) > LargestSkew)
        {
            probe.Circumstance = circumstance;
            (probe.CircumstanceRow, probe.Origin) = MeasurementContextRow(circumstance, origin);
        }

        var insert = _insert.Whole(1, FreeId(micros)).Whole(2, probe.CircumstanceRow).Whole(3, origin - probe.Origin).Packed(4, measurement.Raw);
        _ = IsSame(measurement.Raw, measurement.Value) ? insert.Null(5) : measurement.Value is { } value ? insert.Packed(5, value) : insert.Empty(5);
        insert.Run();
        foreach (var buckets in _buckets)
        {
            buckets.Add(micros, probe.Row, measurement.Value, measurement.Quality);
        }
    }

    /// <summary>Equal doubles may differ in the sign of zero or in the bits of a NaN; those are kept apart.</summary>
    private static bool IsSame(double? raw, double? value) => raw.HasValue == value.HasValue
        && BitConverter.DoubleToInt64Bits(raw.GetValueOrDefault()) == BitConverter.DoubleToInt64Bits(value.GetValueOrDefault());

    /// <summary>
    /// A free id for this microsecond. Newer than all others is the rule and costs no look-up. An older one is filed in its place of time
    /// and noted in <c>late</c>, so that who follows by id does not miss it.
    /// </summary>
    private long FreeId(long micros)
    {
        var id = MeasurementKey.First(micros);
        if (_newest is not { } newest || id > newest)
        {
            _newest = id;
            return id;
        }

        while (_sql.Whole("SELECT max(id) FROM measurement WHERE id BETWEEN $first AND $last", ("$first", id), ("$last", id + MeasurementKey.PerMicrosecond - 1)) is { } taken)
        {
            var isFull = taken == id + MeasurementKey.PerMicrosecond - 1;
            id = isFull ? id + MeasurementKey.PerMicrosecond : taken + 1;
            if (!isFull)
            {
                break;
            }
        }

        if (id > newest)
        {
            _newest = id;
        }
        else
        {
            _sql.Execute("INSERT INTO late (measurement) VALUES ($id)", ("$id", id));
        }

        return id;
    }

    private KnownProbe Known(Measurement measurement)
    {
        var key = (measurement.Vat, measurement.Probe, measurement.Quantity);
        if (!_probes.TryGetValue(key, out var known))
        {
            var word = measurement.Quantity.Word();
            var row = _sql.Whole(
                    "SELECT id FROM probe WHERE vat = $vat AND probe = $probe AND measures = $measures",
                    ("$vat", measurement.Vat.Value),
                    ("$probe", measurement.Probe.Value),
                    ("$measures", word))
                ?? Insert(
                    "INSERT INTO probe (vat, probe, measures, unit) VALUES ($vat, $probe, $measures, $unit)",
                    ("$vat", measurement.Vat.Value),
                    ("$probe", measurement.Probe.Value),
                    ("$measures", word),
                    ("$unit", measurement.Quantity.Unit()));
            _probes.Add(key, known = new(row));
        }

        return known;
    }

    private (long Id, long Origin) MeasurementContextRow(MeasurementContext circumstance, long origin)
    {
        if (_circumstances.TryGetValue(circumstance, out var known) && Math.Abs(origin - known.Origin) <= LargestSkew)
        {
            return known;
        }

        if (_circumstances.Count >= RememberedCircumstances)
        {
            _circumstances.Clear();
        }

        var id = Insert(
            "INSERT INTO circumstance (run, probe, origin, utc_trusted, quality, reason, calibration) VALUES ($run, $probe, $origin, $trusted, $quality, $reason, $calibration)",
            ("$run", _run),
            ("$probe", circumstance.Probe),
            ("$origin", origin),
            ("$trusted", circumstance.UtcTrusted ? 1L : 0L),
            ("$quality", QualityCode.Of(circumstance.Quality)),
            ("$reason", circumstance.Reason is { } words ? ReasonRow(words) : null),
            ("$calibration", circumstance.Calibration));
        return _circumstances[circumstance] = (id, origin);
    }

    private long ReasonRow(string words)
    {
        if (_sql.Whole("SELECT id FROM reason WHERE words = $words", ("$words", words)) is { } known)
        {
            return known;
        }

        return _sql.Whole("SELECT max(id) FROM reason") >= KeptReasons && words != OneOfTooMany
            ? ReasonRow(OneOfTooMany)
            : Insert("INSERT INTO reason (words) VALUES ($words)", ("$words", words));
    }

    private long Insert(string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        _sql.Execute(sql, values);
        return _sql.Whole("SELECT last_insert_rowid()")!.Value;
    }

    /// <summary>A probe's row, and the circumstance of its newest reading.</summary>
    private sealed class KnownProbe(long row)
    {
        public long Row => row;

        public MeasurementContext Circumstance { get; set; }

        public long CircumstanceRow { get; set; }

        public long Origin { get; set; }
    }

    private readonly record struct MeasurementContext(long Probe, bool UtcTrusted, Quality Quality, string? Reason, long? Calibration);

    /// <summary>Microseconds between the two clocks that still fit 3 bytes (8.4 s); more begins a new circumstance with a new origin.</summary>
    internal const long LargestSkew = (1L << 23) - 1;

    /// <summary>Bound of the dictionary of reasons, for a probe that answers something else each time; some 20 MB.</summary>
    internal const int KeptReasons = 100_000;

    private const string OneOfTooMany = "the store keeps no more different reasons; the log has it";

    /// <summary>Bound of memory when every reading brings another reason; forgetting them only costs rows.</summary>
    private const int RememberedCircumstances = 4096;
}
