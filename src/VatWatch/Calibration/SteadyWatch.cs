namespace VatWatch.Calibration;

/// <summary>
/// Tells whether an electrode in a buffer has come to rest: over a whole window its straight-line trend changes the value by no more than a
/// tolerance. Deterministic; not thread safe.
/// </summary>
/// <param name="window">How long it must have been at rest.</param>
/// <param name="toleranceMillivolts">Largest change along the trend over the window, mV.</param>
public sealed class SteadyWatch(TimeSpan window, double toleranceMillivolts)
{
    /// <summary>Window of a probe that is read at least each 10 s. Common practice, no source.</summary>
    public static readonly TimeSpan Window = TimeSpan.FromSeconds(30);

    /// <summary>0.5 mV is about 0.01 pH, the step of a good display. Our choice.</summary>
    public const double PhToleranceMillivolts = 0.5;

    /// <summary>An ORP probe is read to whole millivolts. Our choice.</summary>
    public const double OrpToleranceMillivolts = 1.0;

    /// <summary>The window of a probe: a slow one needs some readings in it.</summary>
    public static TimeSpan WindowOf(TimeSpan every) => every * 4 > Window ? every * 4 : Window;

    /// <summary>The tolerance of what it measures, mV.</summary>
    public static double ToleranceOf(Quantity measures) => measures == Quantity.Ph ? PhToleranceMillivolts : OrpToleranceMillivolts;

    private const int LeastPoints = 4;

    private readonly Queue<(TimeSpan At, double Millivolts)> _points = new();
    private TimeSpan? _first;

    /// <summary>Change along the trend, carried to a whole window, mV; null while there is too little to tell.</summary>
    public double? TrendMillivolts { get; private set; }

    /// <summary>Whether it has come to rest.</summary>
    public bool IsSteady => Span >= window * 0.9 && Math.Abs(TrendMillivolts ?? double.MaxValue) <= toleranceMillivolts;

    /// <summary>How near it is to rest, 0 to 1: the lesser of the share of the window that is watched and of how calm it is.</summary>
    public double Steadiness => TrendMillivolts is { } trend
        ? Math.Min(Math.Min(1, Span / (window * 0.9)), trend == 0 ? 1 : Math.Min(1, toleranceMillivolts / Math.Abs(trend)))
        : 0;

    /// <summary>The value it rests at: the mean of the newest third of the window, mV.</summary>
    public double Millivolts => _points.Where(point => point.At >= Newest - window / 3).Select(point => point.Millivolts).DefaultIfEmpty(double.NaN).Average();

    /// <summary>How long it took to come to rest, counted from the first value.</summary>
    public TimeSpan Settling => _points.Count == 0 ? TimeSpan.Zero : _points.Peek().At - _first!.Value;

    private TimeSpan Span => _points.Count == 0 ? TimeSpan.Zero : Newest - _points.Peek().At;

    private TimeSpan Newest { get; set; }

    /// <summary>Takes in a value; times never go back.</summary>
    public void Add(TimeSpan at, double millivolts)
    {
        _first ??= at;
        Newest = at;
        _points.Enqueue((at, millivolts));
        while (_points.Peek().At < at - window)
        {
            _points.Dequeue();
        }

        TrendMillivolts = Trend();
    }

    private double? Trend()
    {
        if (_points.Count < LeastPoints || Span < window / 3)
        {
            return null;
        }

        var meanAt = _points.Average(point => point.At.TotalSeconds);
        var mean = _points.Average(point => point.Millivolts);
        var slope = _points.Sum(point => (point.At.TotalSeconds - meanAt) * (point.Millivolts - mean))
            / _points.Sum(point => Math.Pow(point.At.TotalSeconds - meanAt, 2));
        return slope * window.TotalSeconds;
    }
}
