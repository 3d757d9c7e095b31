namespace VatWatch.Nights.Physics;

/// <summary>A thermometer in its sheath: lag, an error of its own that creeps, noise and steps. Not thread safe.</summary>
internal sealed class Thermometer(Chance chance)
{
    private readonly double _offset = chance.Normal(0.15);
    private readonly Wander _creep = new(chance.Fork(), 0.04, 36_000);
    private double? _sheath;
    private double? _kept;

    /// <summary>Height of its tip, share of the depth.</summary>
    public required double Height { get; init; }

    /// <summary>s in liquor; six times that in air.</summary>
    public required double Lag { get; init; }

    public required double Noise { get; init; }

    public required double Increment { get; init; }

    /// <summary>s.</summary>
    public required int Period { get; init; }

    public bool InAir { get; set; }

    /// <summary>Repeats the value it had when it froze.</summary>
    public bool Frozen { get; set; }

    /// <summary>Warmth of its tip, °C.</summary>
    public double Tip => _sheath ?? 0;

    /// <summary>A probe of either kind: fine, with small steps and short periods, or coarse; its tip no lower than the element.</summary>
    public static Thermometer Draw(Chance chance, bool coarse, double elementHeight)
    {
        var slow = coarse && chance.Happens(0.3);
        return new Thermometer(chance.Fork())
        {
            Height = chance.Uniform(Math.Max(0.15, elementHeight), 0.9),
            Lag = chance.Spread(2, 90),
            Noise = coarse ? chance.Spread(0.02, 0.15) : chance.Spread(0.004, 0.08),
            Increment = slow ? 0.1 : coarse ? chance.OneOf(0.25, 0.5, 0.5) : chance.OneOf(0.01, 0.0625, 0.0625, 0.1, 0.125),
            Period = slow ? 60 : coarse ? chance.OneOf(10, 10, 30, 60) : chance.OneOf(1, 2, 5, 5, 10, 15),
        };
    }

    public void Step(double seconds, LayeredLiquor liquor, double room)
    {
        _creep.Step(seconds);
        var around = InAir ? room + 0.08 * (liquor.Surface - room) : liquor.At(Height);
        _sheath = (_sheath ?? around) + (around - (_sheath ?? around)) * (1 - Math.Exp(-seconds / (InAir ? 6 * Lag : Lag)));
    }

    public double Read()
    {
        if (Frozen && _kept is { } kept)
            return kept;
        var value = Tip + _offset + _creep.Value + chance.Normal(Noise);
        _kept = Math.Round(Math.Round(value / Increment) * Increment, 4);
        return _kept.Value;
    }
}
