using System.Runtime.InteropServices;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>The buckets of one table of rollups that a batch of readings falls into, summed up before they are written. Nothing is allocated for a reading. For the writer's thread.</summary>
internal sealed class OpenBuckets(SqlSession sql, RollupTable table)
{
    private readonly Dictionary<long, Sum> _open = [];
    private long _newest = sql.Whole($"SELECT max(id) FROM {table.Name}") ?? long.MinValue;

    /// <summary>Counts a reading of a probe's row.</summary>
    public void Add(long micros, long probe, double? value, Quality quality)
    {
        ref var sum = ref CollectionsMarshal.GetValueRefOrAddDefault(_open, table.Id(micros, probe), out var isThere);
        sum.Worst = isThere && QualityCode.Of(quality) <= QualityCode.Of(sum.Worst) ? sum.Worst : quality;
        if (value is not { } number || !double.IsFinite(number))
        {
            return;
        }

        (sum.First, sum.Min, sum.Max) = sum.Count == 0 ? (number, number, number) : (sum.First, Math.Min(sum.Min, number), Math.Max(sum.Max, number));
        sum.Last = number;
        sum.Total += number;
        sum.Count++;
    }

    /// <summary>Adds what was counted to what the table holds.</summary>
    public void Merge()
    {
        var newest = _newest;
        foreach (var (id, sum) in _open)
        {
            table.Merge(sql, id, sum.Rollup(RollupTable.StartOf(id)), mayBeThere: id <= _newest);
            newest = Math.Max(newest, id);
        }

        _newest = newest;
        _open.Clear();
    }

    private struct Sum
    {
        public long Count;
        public Quality Worst;
        public double First;
        public double Last;
        public double Min;
        public double Max;
        public double Total;

        public readonly Rollup Rollup(DateTimeOffset start) => Count == 0
            ? new(start, 0, Worst, null, null, null, null, 0)
            : new(start, Count, Worst, First, Last, Min, Max, Total);
    }
}
