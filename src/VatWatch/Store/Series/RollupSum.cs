using VatWatch.Measurements;
using VatWatch.Store.Sql;

namespace VatWatch.Store.Series;

/// <summary>What readings amount to while they are summed up: a bucket that is written or read, or a column of a chart. Nothing is allocated for a reading.</summary>
internal struct RollupSum
{
    /// <summary>Readings that have a value which can be one; the numbers below are about these, and 0 without any.</summary>
    public long Count;

    /// <summary>Worst quality of all readings, with or without a value.</summary>
    public Quality Worst;

    /// <summary>Value that arrived first.</summary>
    public double First;

    /// <summary>Value that arrived last.</summary>
    public double Last;
    public double Min;
    public double Max;

    /// <summary>Sum of the values.</summary>
    public double Total;

    /// <summary>One reading.</summary>
    public static RollupSum Of(double? value, Quality quality) => value is { } number && Math.Abs(number) < MeasurementMaker.Unthinkable
        ? new() { Count = 1, Worst = quality, First = number, Last = number, Min = number, Max = number, Total = number }
        : new() { Worst = quality };

    /// <summary>Adds what came later.</summary>
    public void Add(in RollupSum later)
    {
        Worst = QualityCode.Of(later.Worst) > QualityCode.Of(Worst) ? later.Worst : Worst;
        if (later.Count > 0)
        {
            (First, Min, Max) = Count == 0 ? (later.First, later.Min, later.Max) : (First, Math.Min(Min, later.Min), Math.Max(Max, later.Max));
            Last = later.Last;
            Total += later.Total;
            Count += later.Count;
        }
    }

    /// <summary>Reads the columns id, count, worst, first, last, min, max, sum.</summary>
    /// <exception cref="InvalidDataException">One of them holds what is never written.</exception>
    public static RollupSum Read(StoreRow row)
    {
        var count = row.GetInt64(1);
        var worst = QualityCode.Parse(row.GetInt64(2));
        return count switch
        {
            0 => new() { Worst = worst },
            > 0 and <= MostReadings => new() { Count = count, Worst = worst, First = Number(row, 3), Last = Number(row, 4), Min = Number(row, 5), Max = Number(row, 6), Total = Number(row, 7, count) },
            _ => throw new InvalidDataException($"count is {count}; wanted 0 to {MostReadings}"),
        };
    }

    /// <summary>The bucket that begins there.</summary>
    public readonly Rollup At(DateTimeOffset start) => Count == 0 ? new(start, 0, Worst, null, null, null, null, 0) : new(start, Count, Worst, First, Last, Min, Max, Total);

    /// <summary>Far more than a quarter of an hour of the fastest probe.</summary>
    private const long MostReadings = 1L << 40;

    private static double Number(StoreRow row, int column, long readings = 1) => PackedNumber.Unpack(row, column) is { } number && Math.Abs(number) < MeasurementMaker.Unthinkable * readings
        ? number
        : throw new InvalidDataException($"{row.GetName(column)} is no number that readings can have; wanted one");
}
