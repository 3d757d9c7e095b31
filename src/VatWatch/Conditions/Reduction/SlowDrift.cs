namespace VatWatch.Conditions.Reduction;

/// <summary>
/// Tells a rise of ORP that an electrode may make by itself: slow and even for hours, nothing put in, pH and temperature unmoved. Air that gets in looks the same
/// at first, so it is doubted and said, and never called oxidised by itself. Not thread safe.
/// </summary>
internal sealed class SlowDrift
{
    /// <summary>A platinum electrode that films over drifts by 20 to 50 mV (indigo chemistry reference); over a night. Faster is the liquor.</summary>
    private const double FastestPerHour = 20;
    private const double LeastPerHour = 3;

    /// <summary>An hour of an even rise may go so far back by the electrode's wander, mV.</summary>
    private const double WanderMillivolts = 6;

    /// <summary>pH and temperature that count as unmoved.</summary>
    private const double PhMoves = 0.1;
    private const double MovesK = 3;

    private static readonly TimeSpan Every = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan Length = TimeSpan.FromHours(4);
    private const int PerHour = 6;

    private readonly Queue<(TimeSpan At, double Millivolts, double? Ph, double? LiquorC)> _points = new();
    private TimeSpan _next = TimeSpan.MinValue;

    /// <summary>Since when it lasts, and its rate, mV/h; null while nothing is to be doubted.</summary>
    public (TimeSpan Since, double PerHour)? Found { get; private set; }

    /// <summary>Something went in, or the curve was interrupted.</summary>
    public void Clear()
    {
        _points.Clear();
        Found = null;
    }

    /// <summary>Takes in what is known at a moment.</summary>
    public void Add(TimeSpan now, double millivolts, double? ph, double? liquorC)
    {
        if (now < _next)
        {
            return;
        }

        _next = now + Every;
        _points.Enqueue((now, millivolts, ph, liquorC));
        while (now - _points.Peek().At > Length)
        {
            _points.Dequeue();
        }

        Found = Judge(now);
    }

    private (TimeSpan Since, double PerHour)? Judge(TimeSpan now)
    {
        var points = _points.ToArray();
        var span = now - points[0].At;
        var rate = (points[^1].Millivolts - points[0].Millivolts) / Math.Max(span.TotalHours, 1e-3);
        if (span < Length - 2 * Every || rate is < LeastPerHour or > FastestPerHour || Moves(points, point => point.Ph) > PhMoves || Moves(points, point => point.LiquorC) > MovesK)
        {
            return null;
        }

        for (var i = PerHour; i < points.Length; i++)
        {
            if (points[i].Millivolts - points[i - PerHour].Millivolts is < -WanderMillivolts or > FastestPerHour + WanderMillivolts)
            {
                return null;
            }
        }

        return (points[0].At, rate);
    }

    /// <summary>How far the last hour lies from the first: a thermostat's swing and the electrode's own wander are none.</summary>
    private static double Moves((TimeSpan At, double Millivolts, double? Ph, double? LiquorC)[] points, Func<(TimeSpan At, double Millivolts, double? Ph, double? LiquorC), double?> of)
    {
        var (first, last) = (points.Take(PerHour).Select(of).Average(), points.TakeLast(PerHour).Select(of).Average());
        return last is { } to && first is { } from ? Math.Abs(to - from) : double.PositiveInfinity;
    }
}
