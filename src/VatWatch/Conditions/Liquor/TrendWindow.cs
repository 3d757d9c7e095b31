namespace VatWatch.Conditions.Liquor;

/// <summary>
/// A sliding window of values with their least-squares line: slope and its standard error. Times are monotonic. Holds at most
/// <see cref="Capacity"/> points: a faster stream is thinned to that many over the window. Not thread safe.
/// </summary>
/// <param name="length">How far back the window reaches.</param>
public sealed class TrendWindow(TimeSpan length)
{
    /// <summary>Enough points for a slope; more only cost time.</summary>
    public const int Capacity = 240;

    private readonly Queue<(double Hours, double Value)> _points = new();
    private TimeSpan _newest = TimeSpan.MinValue;
    private Trend? _line;
    private bool _isDrawn;

    /// <summary>Points held.</summary>
    public int Count => _points.Count;

    /// <summary>Time from the oldest to the newest point held.</summary>
    public TimeSpan Span => _points.Count < 2 ? TimeSpan.Zero : TimeSpan.FromHours(_newest.TotalHours - _points.Peek().Hours);

    /// <summary>Forgets everything, after a step that the past says nothing about.</summary>
    public void Clear()
    {
        _points.Clear();
        _newest = TimeSpan.MinValue;
        _isDrawn = false;
    }

    /// <summary>Takes in a value at a monotonic time; one that is not later than the newest is ignored.</summary>
    public void Add(TimeSpan at, double value)
    {
        if (_points.Count > 0 && at - _newest < length / Capacity)
        {
            return;
        }

        _points.Enqueue((at.TotalHours, value));
        _newest = at;
        _isDrawn = false;
        Forget(at);
    }

    /// <summary>Drops what is older than the window at <paramref name="now"/>.</summary>
    public void Forget(TimeSpan now)
    {
        while (_points.Count > 0 && _points.Peek().Hours < (now - length).TotalHours)
        {
            _points.Dequeue();
            _isDrawn = false;
        }
    }

    /// <summary>The line through the points; null with fewer than three or all at one moment.</summary>
    public Trend? Line()
    {
        if (!_isDrawn)
        {
            (_line, _isDrawn) = (Draw(), true);
        }

        return _line;
    }

    private Trend? Draw()
    {
        if (_points.Count < 3)
        {
            return null;
        }

        double n = _points.Count, meanT = 0, meanV = 0;
        foreach (var (t, v) in _points)
        {
            meanT += t / n;
            meanV += v / n;
        }

        double stt = 0, stv = 0, svv = 0;
        foreach (var (t, v) in _points)
        {
            stt += (t - meanT) * (t - meanT);
            stv += (t - meanT) * (v - meanV);
            svv += (v - meanV) * (v - meanV);
        }

        if (stt <= 0)
        {
            return null;
        }

        var slope = stv / stt;
        var residual = Math.Max(0, svv - slope * stv) / (n - 2);
        var atNewest = meanV + slope * (_newest.TotalHours - meanT);
        return new Trend(slope, Math.Sqrt(residual / stt), atNewest, Math.Sqrt(residual));
    }
}

/// <summary>A least-squares line through recent values.</summary>
/// <param name="PerHour">Slope, per hour.</param>
/// <param name="StandardError">Standard error of the slope, per hour.</param>
/// <param name="Newest">The line's value at the newest point.</param>
/// <param name="Scatter">Standard deviation of the points about the line.</param>
public readonly record struct Trend(double PerHour, double StandardError, double Newest, double Scatter);
