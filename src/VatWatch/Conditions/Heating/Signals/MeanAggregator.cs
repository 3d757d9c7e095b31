namespace VatWatch.Conditions.Heating.Signals;

/// <summary>Gathers samples into means over stretches of equal length. Not thread safe.</summary>
internal sealed class MeanAggregator(TimeSpan length)
{
    private long _stretch = -1;
    private double _sumC;
    private double _sumSeconds;
    private int _count;

    /// <summary>Takes in a sample; the mean of the stretch before it when this one begins a new stretch.</summary>
    public LiquorMean? Add(TimeSpan at, double liquorC, double? roomC)
    {
        var stretch = at.Ticks / length.Ticks;
        var made = stretch != _stretch && _count > 0
            ? new LiquorMean(TimeSpan.FromSeconds(_sumSeconds / _count), _sumC / _count, roomC, _count)
            : (LiquorMean?)null;
        if (stretch != _stretch)
        {
            _stretch = stretch;
            _sumC = _sumSeconds = 0;
            _count = 0;
        }

        _sumC += liquorC;
        _sumSeconds += at.TotalSeconds;
        _count++;
        return made;
    }

    /// <summary>Drops the stretch begun.</summary>
    public void Clear()
    {
        _stretch = -1;
        _count = 0;
        _sumC = _sumSeconds = 0;
    }
}

/// <summary>The liquor over one short stretch, usually a minute.</summary>
/// <param name="At">Mean of the sample times, monotonic.</param>
/// <param name="LiquorC">Mean temperature, °C.</param>
/// <param name="RoomC">Mean room temperature, °C; null without a usable probe.</param>
/// <param name="Count">Samples behind it.</param>
internal readonly record struct LiquorMean(TimeSpan At, double LiquorC, double? RoomC, int Count);
