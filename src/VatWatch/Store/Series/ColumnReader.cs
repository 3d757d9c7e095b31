using VatWatch.Measurements;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>
/// Sums a stretch of readings up into columns, of all probes in one pass. Wide columns are made of rollups, which hold the extremes of every reading; the
/// ends of the stretch, which no rollup fits, and narrow columns are made of the readings themselves.
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
    /// <param name="gap">Longest time without a value that is no break in a probe's trace.</param>
    public IReadOnlyDictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Read(DateTimeOffset from, DateTimeOffset to, int columns, Func<ProbeId, TimeSpan> gap)
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
            return Gather(sums => Readings(sums, values, low, high), low, width, 0, gap);
        }

        var bucket = MicrosOf(table);
        width = (width + bucket - 1) / bucket * bucket;
        var firstWhole = -MeasurementKey.FloorDivide(-low, bucket) * bucket;
        var lastWhole = MeasurementKey.FloorDivide(high, bucket) * bucket;
        return Gather(
            sums => Readings(sums, values, low, firstWhole)
                .Concat(SortedMerge.Of(Rollups(sums, table, firstWhole, lastWhole), Readings(sums, relabelled, firstWhole, lastWhole), part => part.Micros))
                .Concat(Readings(sums, values, lastWhole, high)),
            firstWhole - bucket,
            width,
            bucket,
            gap);
    }

    private static long MicrosOf(RollupTable table) => table.Minutes * 60_000_000L;

    private IEnumerable<Part> Rollups(Dictionary<ProbeId, ColumnSum> sums, RollupTable table, long low, long high)
    {
        var byRow = probes.ToDictionary(probe => probe.Key, probe => sums[probe.Value]);
        return low >= high ? [] : table.Read(sql, probes.Keys, MeasurementKey.UtcOfMicros(low), MeasurementKey.UtcOfMicros(high))
            .Select(row => new Part(byRow[RollupTable.ProbeOf(row.Id)], RollupTable.MicrosOf(row.Id), row.Sum));
    }

    private static IEnumerable<Part> Readings(Dictionary<ProbeId, ColumnSum> sums, Func<long, long, IEnumerable<Measurement>> read, long low, long high) => low >= high ? [] : read(low, high)
        .Select(reading => new Part(sums[reading.Probe], MeasurementKey.Micros(reading.Stamp.Utc), RollupSum.Of(reading.Value, reading.Quality)));

    /// <param name="parts">Readings or buckets in order of time, for the sums of their probes.</param>
    /// <param name="origin">Microsecond at which the first column begins.</param>
    /// <param name="width">Width of a column, µs.</param>
    /// <param name="length">How much of the time before the next part a part may fill, µs.</param>
    private Dictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Gather(
        Func<Dictionary<ProbeId, ColumnSum>, IEnumerable<Part>> parts, long origin, long width, long length, Func<ProbeId, TimeSpan> gap)
    {
        var sums = probes.Values.Distinct().ToDictionary(probe => probe, probe => new ColumnSum(origin, width, MeasurementKey.Micros(gap(probe)) + length));
        foreach (var part in parts(sums))
        {
            part.Sum.Add(part.Micros, part.Of);
        }

        return sums.Select(one => (one.Key, Columns: one.Value.Finish())).Where(one => one.Columns.Count > 0).ToDictionary(one => one.Key, one => one.Columns);
    }

    private readonly record struct Part(ColumnSum Sum, long Micros, RollupSum Of);
}
