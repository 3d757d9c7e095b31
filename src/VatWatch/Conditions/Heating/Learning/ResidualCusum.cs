namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// Two-sided cumulative sum of the residuals of learning windows (slack 0.5, threshold 5 standard deviations: heat-balance reference,
/// engineering choice). It tells a lasting change of the losses from noise. Not thread safe.
/// </summary>
internal sealed class ResidualCusum
{
    private const double Slack = 0.5;
    private const double Threshold = 5;
    private const double GreatestStep = 3;

    /// <summary>A shift is judged after this much of it: heat-balance reference, 20 to 40 min for a lid.</summary>
    private static readonly TimeSpan JudgedAfter = TimeSpan.FromMinutes(28);

    private Side _up;
    private Side _down;

    /// <summary>Whether a shift is building up: nothing should be learned from it yet.</summary>
    public bool IsSuspected => _up.Sum > Threshold || _down.Sum > Threshold;

    /// <summary>A shift long enough to be judged: its mean residual rate, K/h, and when it began; null otherwise.</summary>
    public (double KPerHour, TimeSpan Since)? Found =>
        _down.Sum > Threshold && _down.Time >= JudgedAfter ? (_down.Change / _down.Time.TotalHours, _down.Since)
        : _up.Sum > Threshold && _up.Time >= JudgedAfter ? (_up.Change / _up.Time.TotalHours, _up.Since)
        : null;

    /// <summary>Takes in a window: its residual, K, and that in standard deviations.</summary>
    public void Add(TimeSpan from, TimeSpan to, double residual, double deviations)
    {
        var step = Math.Clamp(deviations, -GreatestStep, GreatestStep);
        _up = _up.With(step - Slack, from, to, residual);
        _down = _down.With(-step - Slack, from, to, residual);
    }

    /// <summary>Begins anew.</summary>
    public void Clear() => _up = _down = default;

    private readonly record struct Side(double Sum, double Change, TimeSpan Time, TimeSpan Since)
    {
        public Side With(double step, TimeSpan from, TimeSpan to, double residual)
        {
            var sum = Sum + step;
            return sum <= 0 ? default : new Side(sum, Change + residual, Time + (to - from), Sum > 0 ? Since : from);
        }
    }
}
