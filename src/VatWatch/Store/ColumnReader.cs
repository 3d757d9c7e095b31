using VatWatch.Measurements;

namespace VatWatch.Store;

/// <summary>
/// Sums a stretch of readings up into columns. Wide columns are made of rollups, which hold the extremes of every reading; the ends of the
/// stretch, which no rollup fits, and narrow columns are made of the readings themselves.
/// </summary>
/// <param name="sql">The database, for its rollups.</param>
/// <param name="values">Readings of a probe's row from one microsecond up to, not including, another, in order of time.</param>
/// <param name="relabelled">Those of them whose label is put right when they are read; rollups do not have them at that time.</param>
internal sealed class ColumnReader(SqlSession sql, Func<long, long, long, IEnumerable<Measurement>> values, Func<long, long, long, IEnumerable<Measurement>> relabelled)
{
    /// <summary>At most <paramref name="columns"/> + 1 columns, without the empty ones.</summary>
    public IReadOnlyList<MeasurementColumn> Read(IReadOnlyList<long> probes, DateTimeOffset from, DateTimeOffset to, int columns, TimeSpan gap)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        var (low, high) = (MeasurementKey.MicrosOf(MeasurementKey.AtOrAfter(from)), MeasurementKey.MicrosOf(MeasurementKey.AtOrAfter(to)));
        if (low >= high)
        {
            return [];
        }

        var width = (high - low + columns - 1) / columns;
        var table = width >= 2 * MicrosOf(RollupTable.QuarterHour) ? RollupTable.QuarterHour : width >= 2 * MicrosOf(RollupTable.OneMinute) ? RollupTable.OneMinute : null;
        if (table is null)
        {
            return Gather(probes.SelectMany(probe => Readings(probe, low, high)), low, width, 0, gap);
        }

        var bucket = MicrosOf(table);
        width = (width + bucket - 1) / bucket * bucket;
        var firstWhole = -MeasurementKey.FloorDivide(-low, bucket) * bucket;
        var lastWhole = MeasurementKey.FloorDivide(high, bucket) * bucket;
        var parts = probes.SelectMany(probe => Readings(probe, low, firstWhole)
            .Concat(table.Read(sql, probe, MeasurementKey.UtcOfMicros(firstWhole), MeasurementKey.UtcOfMicros(lastWhole)).Select(rollup => (MeasurementKey.Micros(rollup.Start), rollup)))
            .Concat(Parts(relabelled(probe, firstWhole, lastWhole)))
            .Concat(Readings(probe, lastWhole, high)));
        return Gather(parts, firstWhole - bucket, width, bucket, gap);
    }

    private static long MicrosOf(RollupTable table) => table.Minutes * 60_000_000L;

    private IEnumerable<(long Micros, Rollup Rollup)> Readings(long probe, long low, long high) => low >= high ? [] : Parts(values(probe, low, high));

    private static IEnumerable<(long Micros, Rollup Rollup)> Parts(IEnumerable<Measurement> measurements) => measurements
        .Select(m => (MeasurementKey.Micros(m.Stamp.Utc), Rollup.Of(m.Stamp.Utc, m.Value, m.Quality)));

    /// <param name="parts">Readings or buckets with the microsecond at which they begin.</param>
    /// <param name="origin">Microsecond at which the first column begins.</param>
    /// <param name="width">Width of a column, µs.</param>
    /// <param name="length">How much of the time before the next part a part may fill, µs.</param>
    /// <param name="gap">Longest time without a value that is no break.</param>
    private static List<MeasurementColumn> Gather(IEnumerable<(long Micros, Rollup Rollup)> parts, long origin, long width, long length, TimeSpan gap)
    {
        var columns = new List<MeasurementColumn>();
        var longest = MeasurementKey.Micros(gap) + length;
        long? previous = null;
        foreach (var column in parts.OrderBy(part => part.Micros).GroupBy(part => MeasurementKey.FloorDivide(part.Micros - origin, width)))
        {
            var whole = column.Select(part => part.Rollup).Aggregate((sum, next) => sum.With(next));
            if (whole is not { First: { } first, Last: { } last, Min: { } min, Max: { } max, Mean: { } mean })
            {
                continue;
            }

            var filled = column.Where(part => part.Rollup.Count > 0).Select(part => part.Micros).ToList();
            var (start, isBroken) = (origin + column.Key * width, previous is { } before && filled[0] - before > longest);
            columns.Add(new(MeasurementKey.UtcOfMicros(start), MeasurementKey.UtcOfMicros(start + width), first, last, min, max, mean, whole.Count, whole.Worst, isBroken));
            previous = filled[^1];
        }

        return columns;
    }
}
