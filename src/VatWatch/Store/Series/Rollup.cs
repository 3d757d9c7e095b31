using SQLitePCL;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>What the readings of one probe amount to within one minute or quarter of an hour.</summary>
/// <param name="Start">Start of the bucket, UTC.</param>
/// <param name="Count">Readings that have a finite value; the other numbers are about these.</param>
/// <param name="Worst">Worst quality of all readings, with or without a value.</param>
/// <param name="First">Value that arrived first; null when there is none, like the next three.</param>
/// <param name="Last">Value that arrived last.</param>
public sealed record Rollup(DateTimeOffset Start, long Count, Quality Worst, double? First, double? Last, double? Min, double? Max, double Sum)
{
    /// <summary>Arithmetic mean of the values; null when there is none.</summary>
    public double? Mean => Count == 0 ? null : Sum / Count;

    /// <summary>A bucket of one reading.</summary>
    internal static Rollup Of(DateTimeOffset start, double? value, Quality quality) => value is { } number && double.IsFinite(number)
        ? new(start, 1, quality, number, number, number, number, number)
        : new(start, 0, quality, null, null, null, null, 0);

    /// <summary>This bucket and what came <paramref name="later"/>.</summary>
    internal Rollup With(Rollup later) => new(
        Start,
        Count + later.Count,
        QualityCode.Of(later.Worst) > QualityCode.Of(Worst) ? later.Worst : Worst,
        First ?? later.First,
        later.Last ?? Last,
        Lesser(Min, later.Min),
        Lesser(-Max, -later.Max) is { } negated ? -negated : null,
        Sum + later.Sum);

    /// <summary>Reads the columns id, count, worst, first, last, min, max, sum.</summary>
    internal static Rollup Read(StoreRow row)
    {
        var statement = row.Statement;
        var count = row.GetInt64(1);
        return new(
            RollupTable.StartOf(raw.sqlite3_column_int64(statement, 0)),
            count is >= 0 and <= MostReadings ? count : throw new InvalidDataException($"count is {count}; wanted 0 to {MostReadings}"),
            QualityCode.Parse(row.GetInt64(2)),
            PackedNumber.Unpack(statement, 3),
            PackedNumber.Unpack(statement, 4),
            PackedNumber.Unpack(statement, 5),
            PackedNumber.Unpack(statement, 6),
            PackedNumber.Unpack(statement, 7) ?? 0);
    }

    /// <summary>Far more than a quarter of an hour of the fastest probe.</summary>
    private const long MostReadings = 1L << 40;

    private static double? Lesser(double? left, double? right) => left is { } l && right is { } r ? Math.Min(l, r) : left ?? right;
}
