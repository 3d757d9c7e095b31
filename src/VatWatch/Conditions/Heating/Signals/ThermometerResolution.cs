namespace VatWatch.Conditions.Heating.Signals;

/// <summary>
/// How fine a thermometer shows the liquor: the step of its values and the scatter of its means. What is finer than its grain is no movement. Not thread safe.
/// </summary>
internal sealed class ThermometerResolution
{
    /// <summary>Taken until values have moved.</summary>
    private const double FirstNoiseK = 0.02;

    private const double NoiseMemory = 0.05;

    /// <summary>A turn of the liquor itself bends a curve by more than this many deviations; it is no noise.</summary>
    private const double GreatestBend = 4;

    /// <summary>Mean size of a normal deviate is 0.8 of its standard deviation; a second difference of independent values has √6 of it.</summary>
    private static readonly double OfBend = 1 / 0.8 / Math.Sqrt(6);

    private double? _sample;
    private (double Before, double Newest)? _means;
    private double _smallest = double.PositiveInfinity;

    /// <summary>The smallest step between two values, K; 0 until there was one.</summary>
    public double StepK => double.IsFinite(_smallest) ? _smallest : 0;

    /// <summary>Standard deviation of one mean about the liquor, K.</summary>
    public double NoiseK { get; private set; } = FirstNoiseK;

    /// <summary>Movement that may be none, K.</summary>
    public double K => Math.Max(StepK, 4 * NoiseK);

    /// <summary>Takes in a value.</summary>
    public void Add(double liquorC)
    {
        if (_sample is { } before && Math.Abs(liquorC - before) is > 1e-6 and var moved)
        {
            _smallest = Math.Min(_smallest, moved);
        }

        _sample = liquorC;
    }

    /// <summary>Takes in a mean that follows on the one before.</summary>
    public void Add(LiquorMean mean)
    {
        if (_means is { } two)
        {
            var bend = Math.Abs(mean.LiquorC - 2 * two.Newest + two.Before) * OfBend;
            NoiseK += NoiseMemory * (Math.Min(bend, GreatestBend * NoiseK) - NoiseK);
        }

        _means = (_means?.Newest ?? mean.LiquorC, mean.LiquorC);
    }

    /// <summary>After a gap, or with another thermometer.</summary>
    public void Clear(bool another)
    {
        _means = null;
        _sample = null;
        if (another)
        {
            (_smallest, NoiseK) = (double.PositiveInfinity, FirstNoiseK);
        }
    }
}
