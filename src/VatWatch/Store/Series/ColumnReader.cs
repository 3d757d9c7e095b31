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
        var bucket = table is null ? 1 : MicrosOf(table);
        width = (width + bucket - 1) / bucket * bucket;
        var (firstWhole, lastWhole) = table is null ? (high, high) : (-MeasurementKey.FloorDivide(-low, bucket) * bucket, MeasurementKey.FloorDivide(high, bucket) * bucket);
        var (origin, length) = table is null ? (low, 0) : (firstWhole - bucket, bucket);
        var sums = probes.Values.Distinct().ToDictionary(probe => probe, probe => new ColumnSum(origin, width, MeasurementKey.Micros(gap(probe)) + length));
        Add(sums, low, firstWhole);
        if (table is not null)
        {
            Add(sums, table, firstWhole, lastWhole);
        }

        Add(sums, lastWhole, high);
        return sums.Select(one => (one.Key, Columns: one.Value.Finish())).Where(one => one.Columns.Count > 0).ToDictionary(one => one.Key, one => one.Columns);
    }

    private static long MicrosOf(RollupTable table) => table.Minutes * 60_000_000L;

    private static long MicrosOf(Measurement reading) => MeasurementKey.Micros(reading.Stamp.Utc);

    private static void Add(Dictionary<ProbeId, ColumnSum> sums, Measurement reading) => sums[reading.Probe].Add(MicrosOf(reading), RollupSum.Of(reading.Value, reading.Quality));

    private void Add(Dictionary<ProbeId, ColumnSum> sums, long low, long high)
    {
        foreach (var reading in low >= high ? [] : values(low, high))
        {
            Add(sums, reading);
        }
    }

    /// <summary>Adds buckets, and between them the readings that are not in them, in order of time.</summary>
    private void Add(Dictionary<ProbeId, ColumnSum> sums, RollupTable table, long low, long high)
    {
        if (low >= high)
        {
            return;
        }

        var byRow = probes.ToDictionary(probe => probe.Key, probe => sums[probe.Value]);
        var others = new Queue<Measurement>(relabelled(low, high));
        foreach (var (id, sum) in table.Read(sql, probes.Keys, MeasurementKey.UtcOfMicros(low), MeasurementKey.UtcOfMicros(high)))
        {
            var micros = RollupTable.MicrosOf(id);
            while (others.TryPeek(out var other) && MicrosOf(other) < micros)
            {
                Add(sums, others.Dequeue());
            }

            byRow[RollupTable.ProbeOf(id)].Add(micros, sum);
        }

        foreach (var other in others)
        {
            Add(sums, other);
        }
    }
}
