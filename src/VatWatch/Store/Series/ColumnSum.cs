namespace VatWatch.Store.Series;

/// <summary>Sums the parts of one probe up into columns. Parts come in order of time. Nothing is allocated for a part. Not thread safe.</summary>
/// <param name="origin">Microsecond at which the first column begins.</param>
/// <param name="width">Width of a column, µs.</param>
/// <param name="longest">Longest time from one part with a value to the next that is no break, µs.</param>
internal sealed class ColumnSum(long origin, long width, long longest)
{
    private readonly List<MeasurementColumn> _columns = [];
    private long _end = long.MinValue;
    private RollupSum _sum;
    private long _firstFilled;
    private long _lastFilled;
    private long? _previous;

    /// <summary>Adds a reading or a bucket.</summary>
    public void Add(long micros, in RollupSum part)
    {
        if (micros >= _end)
        {
            Close();
            _end = origin + (MeasurementKey.FloorDivide(micros - origin, width) + 1) * width;
        }

        if (part.Count > 0)
        {
            _firstFilled = _sum.Count == 0 ? micros : _firstFilled;
            _lastFilled = micros;
        }

        _sum.Add(part);
    }

    /// <summary>Every column that holds a value.</summary>
    public IReadOnlyList<MeasurementColumn> Finish()
    {
        Close();
        return _columns;
    }

    private void Close()
    {
        if (_sum.Count > 0)
        {
            var isBroken = _firstFilled - _previous > longest;
            _columns.Add(new(
                MeasurementKey.UtcOfMicros(_end - width), MeasurementKey.UtcOfMicros(_end), _sum.First, _sum.Last, _sum.Min, _sum.Max, _sum.Total / _sum.Count, _sum.Count, _sum.Worst, isBroken));
            _previous = _lastFilled;
        }

        _sum = default;
    }
}
