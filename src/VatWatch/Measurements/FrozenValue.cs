namespace VatWatch.Measurements;

/// <summary>
/// Notices a value that stays exactly the same although it used to move. A coarse sensor in a vat held steady also repeats itself, so what
/// counts is how long it ever repeated itself before. Not thread safe.
/// </summary>
/// <param name="fineStep">A probe whose values differ by no less than this is coarse.</param>
internal sealed class FrozenValue(double fineStep)
{
    /// <summary>Heat-balance reference: exactly constant for more than 15 min.</summary>
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(15);

    /// <summary>A coarse display in a vat held steady must stay for this long.</summary>
    private static readonly TimeSpan LeastWhereCoarse = TimeSpan.FromMinutes(90);

    /// <summary>And this many times as long as ever before.</summary>
    private const double TimesLongest = 6;

    /// <summary>Changes that must have been seen before repetition means anything.</summary>
    private const int LeastChanges = 20;

    private double? _value;
    private TimeSpan _newest;
    private TimeSpan _longest;
    private int _changes;
    private double _smallestStep = double.PositiveInfinity;

    /// <summary>One for values of this kind.</summary>
    public static FrozenValue Of(Quantity measures) => new(FineStep(measures));

    /// <summary>Since when the value has been the same.</summary>
    public TimeSpan Since { get; private set; }

    /// <summary>Whether it is frozen.</summary>
    public bool IsFrozen => _changes >= LeastChanges && _newest - Since >= (_smallestStep > fineStep ? LeastWhereCoarse : Least) && _newest - Since > TimesLongest * _longest;

    /// <summary>The value that is repeated.</summary>
    public double Value => _value ?? double.NaN;

    /// <summary>Takes in a value.</summary>
    public void Add(TimeSpan at, double value)
    {
        if (_value is { } same && same.Equals(value))
        {
            _newest = at;
            return;
        }

        if (_value is { } before)
        {
            _changes++;
            _smallestStep = Math.Min(_smallestStep, Math.Abs(value - before));
            if (!IsFrozen && _newest - Since > _longest)
            {
                _longest = _newest - Since;
            }
        }

        _value = value;
        Since = _newest = at;
    }

    /// <summary>A step that noise alone makes every minute; engineering choice, no source.</summary>
    private static double FineStep(Quantity measures) => measures switch
    {
        Quantity.Temperature => 0.025,
        Quantity.Ph => 0.006,
        _ => 0.6,
    };
}
