namespace VatWatch.Nights.Physics;

/// <summary>Chance with a seed: the same seed gives the same draws. Not thread safe.</summary>
internal sealed class Chance(int seed)
{
    private readonly Random _random = new(seed);
    private double? _spare;

    /// <summary>A stream of its own, so that one more draw in one place does not shift every other.</summary>
    public Chance Fork() => new(_random.Next());

    public double Uniform(double low, double high) => low + (high - low) * _random.NextDouble();

    /// <summary>Even on a logarithmic scale: as many small vats as large ones.</summary>
    public double Spread(double low, double high) => Math.Exp(Uniform(Math.Log(low), Math.Log(high)));

    public bool Happens(double share) => _random.NextDouble() < share;

    public T OneOf<T>(params ReadOnlySpan<T> choices) => choices[_random.Next(choices.Length)];

    /// <summary>Normal with mean 0 (Box and Muller 1958).</summary>
    public double Normal(double sigma)
    {
        if (_spare is { } kept)
        {
            _spare = null;
            return sigma * kept;
        }

        var (radius, angle) = (Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())), Math.Tau * _random.NextDouble());
        _spare = radius * Math.Sin(angle);
        return sigma * radius * Math.Cos(angle);
    }
}

/// <summary>A quantity that wanders about zero and always comes back (an Ornstein-Uhlenbeck process).</summary>
/// <param name="chance">Its own stream.</param>
/// <param name="sigma">Standard deviation in the long run.</param>
/// <param name="memory">Time in which it forgets where it was, s.</param>
internal sealed class Wander(Chance chance, double sigma, double memory)
{
    public double Value { get; private set; } = chance.Normal(sigma);

    public void Step(double seconds)
    {
        var kept = Math.Exp(-seconds / memory);
        Value = Value * kept + chance.Normal(sigma * Math.Sqrt(1 - kept * kept));
    }
}
