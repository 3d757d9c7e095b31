namespace VatWatch.Measurements;

/// <summary>
/// Holds a value that has moved too far at once in doubt until the next one confirms it: by staying near it, or by going on in the same
/// direction. A single outlier is so told from a real step, at the price of one reading. Deterministic; not thread safe.
/// </summary>
internal sealed class UnconfirmedStep
{
    private (TimeSpan At, double Value)? _trusted;
    private (TimeSpan At, double Value)? _doubted;

    /// <summary>The value that the newest was held against, when the newest is in doubt.</summary>
    public double? Before { get; private set; }

    /// <summary>Takes in a value; true when it is in doubt.</summary>
    /// <param name="at">When, by the monotonic clock.</param>
    /// <param name="allowed">How far a value may move within a time.</param>
    public bool Doubts(TimeSpan at, double value, Func<TimeSpan, double> allowed)
    {
        bool Near((TimeSpan At, double Value) other) => Math.Abs(value - other.Value) <= allowed(at - other.At);
        if (_trusted is { } trusted && !Near(trusted) && !(_doubted is { } doubted && (Near(doubted) || GoesOn(trusted.Value, doubted.Value, value))))
        {
            Before = trusted.Value;
            _doubted = (at, value);
            return true;
        }

        Before = null;
        _doubted = null;
        _trusted = (at, value);
        return false;
    }

    private static bool GoesOn(double from, double to, double next) => Math.Sign(to - from) == Math.Sign(next - to);
}
