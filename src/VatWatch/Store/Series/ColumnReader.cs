using VatWatch.Measurements;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Sums a stretch of readings up into columns. Wide columns are made of rollups, which hold the extremes of every reading; the ends of the
/// stretch, which no rollup fits, and narrow columns are made of the readings themselves.
/// </summary>
/// <param name="sql">The database, for its rollups.</param>
/// <param name="probes">Rows of the probes that are wanted, and what each is called.</param>
/// <param name="values">Their readings from one microsecond up to, not including, another, in order of time.</param>
/// <param name="relabelled">Those of them whose label is put right when they are read; rollups do not have them at that time.</param>
internal sealed class ColumnReader(
    SqlSession sql,
    IReadOnlyDictionary<long, ProbeId> probes,
    Func<long, long, IEnumerable<Measurement>> values,
    Func<long, long, IEnumerable<Measurement>> relabelled)
{
    /// <summary>At most <paramref name="columns"/> + 1 columns a probe, without the empty ones.</summary>
    public IReadOnlyDictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Read(DateTimeOffset from, DateTimeOffset to, int columns, TimeSpan gap)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        var (low, high) = (MeasurementKey.MicrosOf(MeasurementKey.AtOrAfter(from)), MeasurementKey.MicrosOf(MeasurementKey.AtOrAfter(to)));
        if (low >= high)
        {
            return new Dictionary<ProbeId, IReadOnlyList<MeasurementColumn>>();
        }

        var width = (high - low + columns - 1) / columns;
        var table = width >= 2 * MicrosOf(RollupTable.QuarterHour) ? RollupTable.QuarterHour : width >= 2 * MicrosOf(RollupTable.OneMinute) ? RollupTable.OneMinute : null;
        if (table is null)
        {
            return Gather(Readings(values, low, high), low, width, 0, gap);
        }

        var bucket = MicrosOf(table);
        width = (width + bucket - 1) / bucket * bucket;
        var firstWhole = -MeasurementKey.FloorDivide(-low, bucket) * bucket;
        var lastWhole = MeasurementKey.FloorDivide(high, bucket) * bucket;
        var parts = Readings(values, low, Math.Min(firstWhole, high))
            .Concat(SortedMerge.Of(Rollups(table, firstWhole, lastWhole), Readings(relabelled, firstWhole, lastWhole), part => part.Micros))
            .Concat(Readings(values, Math.Max(lastWhole, firstWhole), high));
        return Gather(parts, firstWhole - bucket, width, bucket, gap);
    }

    private static long MicrosOf(RollupTable table) => table.Minutes * 60_000_000L;

    private IEnumerable<Part> Rollups(RollupTable table, long low, long high) => low >= high ? [] : table
        .Read(sql, probes.Keys, MeasurementKey.UtcOfMicros(low), MeasurementKey.UtcOfMicros(high))
        .Select(row => new Part(probes[row.Probe], MeasurementKey.Micros(row.Rollup.Start), row.Rollup));

    private static IEnumerable<Part> Readings(Func<long, long, IEnumerable<Measurement>> read, long low, long high) => low >= high ? [] : read(low, high)
        .Select(m => new Part(m.Probe, MeasurementKey.Micros(m.Stamp.Utc), Rollup.Of(m.Stamp.Utc, m.Value, m.Quality)));

    /// <param name="parts">Readings or buckets in order of time.</param>
    /// <param name="origin">Microsecond at which the first column begins.</param>
    /// <param name="width">Width of a column, µs.</param>
    /// <param name="length">How much of the time before the next part a part may fill, µs.</param>
    /// <param name="gap">Longest time without a value that is no break.</param>
    private static Dictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Gather(IEnumerable<Part> parts, long origin, long width, long length, TimeSpan gap)
    {
        var sums = new Dictionary<ProbeId, ColumnSum>();
        foreach (var part in parts)
        {
            if (!sums.TryGetValue(part.Probe, out var sum))
            {
                sums.Add(part.Probe, sum = new ColumnSum(origin, width, MeasurementKey.Micros(gap) + length));
            }

            sum.Add(part.Micros, part.Rollup);
        }

        return sums.Select(one => (one.Key, Columns: one.Value.Finish())).Where(one => one.Columns.Count > 0).ToDictionary(one => one.Key, one => one.Columns);
    }

    private readonly record struct Part(ProbeId Probe, long Micros, Rollup Rollup);
}
