using System.Runtime.InteropServices;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>The buckets of one table of rollups that a batch of readings falls into, summed up before they are written. Nothing is allocated for a reading. For the writer's thread.</summary>
internal sealed class OpenBuckets(SqlSession sql, RollupTable table)
{
    private readonly Dictionary<long, RollupSum> _open = [];
    private long _newest = sql.Whole($"SELECT max(id) FROM {table.Name}") ?? long.MinValue;

    /// <summary>Counts a reading of a probe's row.</summary>
    public void Add(long micros, long probe, double? value, Quality quality)
    {
        ref var sum = ref CollectionsMarshal.GetValueRefOrAddDefault(_open, table.Id(micros, probe), out _);
        sum.Add(RollupSum.Of(value, quality));
    }

    /// <summary>Adds what was counted to what the table holds.</summary>
    public void Merge()
    {
        var newest = _newest;
        foreach (var (id, sum) in _open)
        {
            table.Merge(sql, id, sum, mayBeThere: id <= _newest);
            newest = Math.Max(newest, id);
        }

        _newest = newest;
        _open.Clear();
    }
}
