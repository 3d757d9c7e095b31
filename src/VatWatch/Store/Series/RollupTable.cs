using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>One table of rollups: a width, and rows keyed by the start of the bucket and then the probe.</summary>
internal sealed class RollupTable
{
    private const string Columns = "id, count, worst, first_value, last_value, min_value, max_value, sum_value";
    private readonly string _find;
    private readonly string _put;

    private RollupTable(string name, int minutes)
    {
        Minutes = minutes;
        Name = name;
        _find = $"SELECT {Columns} FROM {name} WHERE id = $id";
        _put = $"INSERT OR REPLACE INTO {name} ({Columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
    }

    /// <summary>Buckets of one minute.</summary>
    public static RollupTable OneMinute { get; } = new("rollup_1", 1);

    /// <summary>Buckets of a quarter of an hour.</summary>
    public static RollupTable QuarterHour { get; } = new("rollup_15", 15);

    /// <summary>Both.</summary>
    public static IReadOnlyList<RollupTable> All { get; } = [OneMinute, QuarterHour];

    /// <summary>Width of a bucket, minutes.</summary>
    public int Minutes { get; }

    public string Name { get; }

    /// <summary>Start of the bucket of a row, µs of the key.</summary>
    public static long MicrosOf(long id) => (id >> ProbeBits) * MicrosPerMinute;

    /// <summary>Start of the bucket of a row.</summary>
    public static DateTimeOffset StartOf(long id) => MeasurementKey.UtcOfMicros(MicrosOf(id));

    /// <summary>Probe of a row.</summary>
    public static long ProbeOf(long id) => id & LargestProbe;

    /// <summary>Row of the bucket that holds this microsecond.</summary>
    public long Id(long micros, long probe)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(probe, LargestProbe);
        return (MeasurementKey.FloorDivide(micros, Minutes * MicrosPerMinute) * Minutes << ProbeBits) | probe;
    }

    /// <summary>Adds what arrived to what is there; it is not looked for where there can be nothing.</summary>
    public void Merge(SqlSession sql, long id, in RollupSum arrived, bool mayBeThere)
    {
        var sum = mayBeThere && sql.Query(_find, RollupSum.Read, ("$id", id)) is [var before] ? before : default;
        sum.Add(arrived);
        var row = sum.At(StartOf(id));
        sql.Statement(_put).Whole(1, id).Whole(2, row.Count).Whole(3, QualityCode.Of(row.Worst))
            .Packed(4, row.First).Packed(5, row.Last).Packed(6, row.Min).Packed(7, row.Max).Packed(8, row.Sum)
            .Run();
    }

    /// <summary>Buckets of these probes in order of time, each with its row; one pass over the table for all of them.</summary>
    public IEnumerable<(long Id, RollupSum Sum)> Read(SqlSession sql, IEnumerable<long> probes, DateTimeOffset from, DateTimeOffset to)
    {
        // The probes of a vat are mostly numbered one after another, and two comparisons cost less than a look into a list at every row.
        List<long> rows = [.. probes.Order()];
        var wanted = rows.Count > 0 && rows[^1] - rows[0] == rows.Count - 1 ? $"BETWEEN {rows[0]} AND {rows[^1]}" : $"IN ({string.Join(',', rows)})";
        return sql.Stream(
            $"SELECT {Columns} FROM {Name} WHERE id >= $from AND id < $to AND (id & {LargestProbe}) {wanted} ORDER BY id",
            row => (row.GetInt64(0), RollupSum.Read(row)),
            ("$from", FirstIdFrom(from)),
            ("$to", FirstIdFrom(to)));
    }

    /// <summary>Smallest id of a bucket that begins at or after <paramref name="moment"/>.</summary>
    public static long FirstIdFrom(DateTimeOffset moment) =>
        -MeasurementKey.FloorDivide(-MeasurementKey.MicrosOf(MeasurementKey.AtOrAfter(moment)), MicrosPerMinute) << ProbeBits;

    /// <summary>65,536 probes; more than were ever configured in one file.</summary>
    private const int ProbeBits = 16;

    /// <summary>The bits of an id that are the probe.</summary>
    public const long LargestProbe = (1 << ProbeBits) - 1;

    private const long MicrosPerMinute = 60_000_000;
}
