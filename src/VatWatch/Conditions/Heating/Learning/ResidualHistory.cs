namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// Residuals of the last hours' windows. A change of losses is only told where they changed within like conditions; otherwise it may be the
/// balance that was wrong, or the evaporation that grew with the warmth. Not thread safe.
/// </summary>
internal sealed class ResidualHistory
{
    /// <summary>So many windows before a change are needed, with the heater in the same state and the liquor this near.</summary>
    public const int LeastToCompare = 4;
    private const double LikeWithinK = 3;
    private const int Kept = 48;

    private readonly Queue<(TimeSpan From, bool HeaterOn, double LiquorC, double KPerHour)> _windows = new();

    public void Add(LearningWindow window, bool heaterOn, double residualK)
    {
        _windows.Enqueue((window.From, heaterOn, window.End.LiquorC, residualK / window.Hours));
        if (_windows.Count > Kept)
        {
            _windows.Dequeue();
        }
    }

    /// <summary>Mean residual rate of like windows before a moment, K/h; null with too few to compare with.</summary>
    public double? Before(TimeSpan moment, bool heaterOn, double liquorC)
    {
        var (sum, count) = (0.0, 0);
        foreach (var window in _windows)
        {
            if (window.From < moment && window.HeaterOn == heaterOn && Math.Abs(window.LiquorC - liquorC) < LikeWithinK)
            {
                sum += window.KPerHour;
                count++;
            }
        }

        return count >= LeastToCompare ? sum / count : null;
    }
}
