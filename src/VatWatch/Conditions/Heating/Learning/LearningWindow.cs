using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Learning;

/// <summary>A stretch of about 5 min within one regime, as integrals: what the regression learns from.</summary>
/// <param name="From">Its begin, monotonic.</param>
/// <param name="ChangeK">Rise of the liquor, K.</param>
/// <param name="AboveKelvinHours">∫(T - Tref) dt, K·h; Tref is the room where it is measured.</param>
/// <param name="RoomKnown">Whether it is.</param>
internal readonly record struct LearningWindow(TimeSpan From, LiquorMean End, double ChangeK, double AboveKelvinHours, bool RoomKnown)
{
    /// <summary>Length, h.</summary>
    public double Hours => (End.At - From).TotalHours;
}

/// <summary>Joins means to learning windows. Not thread safe.</summary>
/// <param name="usualRoomC">Tref while the room is not measured, °C.</param>
internal sealed class WindowAggregator(double usualRoomC)
{
    /// <summary>The residual of 5 min has a standard deviation of about 0.035 K (heat-balance reference); less than 5 by one sample's jitter.</summary>
    public static readonly TimeSpan Length = TimeSpan.FromMinutes(4.9);

    /// <summary>A window is so long that a rise this slow makes a step.</summary>
    private const double StepKPerMinute = 0.02;

    private LiquorMean? _start;
    private LiquorMean _last;
    private double _above;

    /// <summary>Drops the window begun.</summary>
    public void BreakOff() => _start = null;

    /// <summary>Takes in the next mean; the window that it completes, if it does. The next begins where one ends.</summary>
    /// <param name="stepK">Step of the thermometer, K: a coarse one wants longer windows.</param>
    public LearningWindow? Add(LiquorMean mean, double stepK)
    {
        if (_start is not { } start || mean.RoomC.HasValue != start.RoomC.HasValue)
        {
            Begin(mean);
            return null;
        }

        _above += ((mean.LiquorC + _last.LiquorC) / 2 - (mean.RoomC ?? usualRoomC)) * (mean.At - _last.At).TotalHours;
        _last = mean;
        if (mean.At - start.At < Length || (mean.At - start.At).TotalMinutes < stepK / StepKPerMinute)
        {
            return null;
        }

        var window = new LearningWindow(start.At, mean, mean.LiquorC - start.LiquorC, _above, mean.RoomC.HasValue);
        Begin(mean);
        return window;
    }

    private void Begin(LiquorMean mean)
    {
        _start = _last = mean;
        _above = 0;
    }
}
