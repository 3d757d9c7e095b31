using System.Runtime.InteropServices;
using VatWatch.Conditions.Liquor;

namespace VatWatch.Conditions.Reduction;

/// <summary>Follows ORP minute by minute: its robust slope outside transients, the transients, and the recoveries. Not thread safe.</summary>
internal sealed class OrpTracker
{
    private static readonly TimeSpan Length = TimeSpan.FromMinutes(60);

    /// <summary>A slope from less than this is no trend.</summary>
    private static readonly TimeSpan LeastSpan = TimeSpan.FromMinutes(12);

    /// <summary>What stands still when a transient ends belongs to the trend that follows.</summary>
    private static readonly TimeSpan SettledPart = TimeSpan.FromMinutes(8);

    /// <summary>Over a longer gap nothing is joined.</summary>
    private static readonly TimeSpan Gap = TimeSpan.FromMinutes(20);

    private readonly List<TimedValue> _points = [];
    private readonly RecoveryLog _log = new();
    private readonly OrpTransient _transient = new();
    private readonly TimeSpan _stretch;
    private TimeSpan _trendFrom = TimeSpan.MinValue;
    private long _minute = -1;
    private double _sum;
    private double _sumSeconds;
    private int _count;
    private Trend? _trend;
    private bool _isDrawn;

    public OrpTracker(VatDefinition vat) => _stretch = vat.StretchOf(Quantity.Orp);

    /// <summary>Slope outside transients, mV/h; null during one and until there is enough after it. Worked out when it is asked for, once for each new minute.</summary>
    public Trend? Trend
    {
        get
        {
            if (_transient.Since is not null || _points.Count == 0)
            {
                return null;
            }

            if (!_isDrawn)
            {
                (_trend, _isDrawn) = (Slope(_points[^1].At), true);
            }

            return _trend;
        }
    }

    /// <summary>The transient that may be going on.</summary>
    public OrpTransient Transient => _transient;

    /// <summary>Recoveries of the session.</summary>
    public RecoveryLog Recoveries => _log;

    /// <summary>A person dipped, added or stirred; or the temperature shows that something went in.</summary>
    public void Note(VatActKind kind, Stamp at)
    {
        if (kind is VatActKind.LidOff or VatActKind.LidOn or VatActKind.HeaterOn or VatActKind.HeaterOff)
        {
            return;
        }

        if (kind is VatActKind.Addition or VatActKind.MadeAnew)
        {
            _log.Clear();
        }

        if (_transient.Begin(at, _points) is { } recovery)
        {
            _log.Add(recovery);
        }
    }

    /// <summary>Takes in a good reading, mV.</summary>
    public void Add(Stamp now, double millivolts)
    {
        var minute = now.Monotonic.Ticks / _stretch.Ticks;
        if (minute != _minute)
        {
            if (_count > 0)
            {
                Take(new TimedValue(TimeSpan.FromSeconds(_sumSeconds / _count), _sum / _count), now);
            }

            (_minute, _sum, _sumSeconds, _count) = (minute, 0, 0, 0);
        }

        _sum += millivolts;
        _sumSeconds += now.Monotonic.TotalSeconds;
        _count++;
    }

    /// <summary>Lets go of what is too old at a moment.</summary>
    public void Forget(TimeSpan now)
    {
        if (_points.Count > 0 && now - _points[^1].At > Gap + 2 * _stretch)
        {
            Clear();
        }
    }

    /// <summary>Begins the curve anew; recoveries stay.</summary>
    public void Clear()
    {
        _points.Clear();
        _transient.Clear();
        _count = 0;
    }

    private void Take(TimedValue point, Stamp now)
    {
        Forget(point.At);
        _points.Add(point);
        if (_points[0].At < point.At - 2 * Length)
        {
            _points.RemoveAll(old => old.At < point.At - Length);
        }

        var was = _transient.Since;
        if (_transient.Follow(_points, now) is { } recovery)
        {
            _log.Add(recovery);
        }

        if (was is not null && _transient.Since is null)
        {
            _trendFrom = point.At - SettledPart;
        }

        _isDrawn = false;
    }

    private Trend? Slope(TimeSpan newest)
    {
        var from = _trendFrom > newest - Length ? _trendFrom : newest - Length;
        var recent = Since(_points, from);
        return recent.Length > 1 && recent[^1].At - recent[0].At >= LeastSpan ? RobustSlope.Through(recent) : null;
    }

    /// <summary>The points from a moment on; they are in order of time.</summary>
    public static ReadOnlySpan<TimedValue> Since(List<TimedValue> points, TimeSpan from)
    {
        var first = points.Count;
        while (first > 0 && points[first - 1].At >= from)
        {
            first--;
        }

        return CollectionsMarshal.AsSpan(points)[first..];
    }
}
