namespace VatWatch.Store.Series;

/// <summary>Sums the parts of one probe up into columns. Parts come in order of time. Not thread safe.</summary>
/// <param name="origin">Microsecond at which the first column begins.</param>
/// <param name="width">Width of a column, µs.</param>
/// <param name="longest">Longest time from one part with a value to the next that is no break, µs.</param>
internal sealed class ColumnSum(long origin, long width, long longest)
{
    private readonly List<MeasurementColumn> _columns = [];
    private long _column;
    private Rollup? _sum;
    private long? _firstFilled;
    private long? _previous;
    private long _lastFilled;

    /// <summary>Adds a reading or a bucket.</summary>
    public void Add(long micros, Rollup part)
    {
        var column = MeasurementKey.FloorDivide(micros - origin, width);
        if (_sum is null || column != _column)
        {
            Close();
            (_column, _sum) = (column, part);
        }
        else
        {
            _sum = _sum.With(part);
        }

        if (part.Count > 0)
        {
            _firstFilled ??= micros;
            _lastFilled = micros;
        }
    }

    /// <summary>Every column that holds a value.</summary>
    public IReadOnlyList<MeasurementColumn> Finish()
    {
        Close();
        return _columns;
    }

    private void Close()
    {
        if (_sum is { First: { } first, Last: { } last, Min: { } min, Max: { } max, Mean: { } mean } sum && _firstFilled is { } filled)
        {
            var start = origin + _column * width;
            var isBroken = filled - _previous > longest;
            _columns.Add(new(MeasurementKey.UtcOfMicros(start), MeasurementKey.UtcOfMicros(start + width), first, last, min, max, mean, sum.Count, sum.Worst, isBroken));
            _previous = _lastFilled;
        }

        (_sum, _firstFilled) = (null, null);
    }
}
