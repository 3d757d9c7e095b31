namespace VatWatch.Nights.Physics;

/// <summary>
/// The reducing agent as a pool: its own decay and the air burn it, a dip takes a piece of it and brings air that the pool must eat. The potential follows the logarithm of
/// what is left (a mixed potential that loses <see cref="MillivoltsPerFold"/> with each factor e), the air in the liquor, pH and warmth. Not thread safe.
/// </summary>
internal sealed class ReducingBath(Chance chance, CarbonateBath carbonate)
{
    /// <summary>A pool this small gives its place to air: the potential goes no further up.</summary>
    private const double Remnant = 0.004;
    private const double SecondsPerHour = 3600;

    private readonly double _warmPh = carbonate.Ph(45);
    private readonly double _warmTerm = chance.Uniform(0.4, 1.8);
    private readonly double _phTerm = chance.Uniform(-50, -28);
    private readonly double _decay = chance.Spread(0.002, 0.012);
    private readonly double _fold = chance.Uniform(1.8, 2.6);
    private readonly double _acid = chance.Uniform(0.001, 0.005);
    private readonly double _eating = chance.Spread(5, 14);
    private readonly double _airPull = chance.Uniform(45, 100);
    private readonly double _start = carbonate.Alkalinity;
    private double _air;
    private double _nextPh;

    /// <summary>Full strength at 45 °C, mV.</summary>
    public double Best { get; } = chance.Uniform(-790, -700);

    public double MillivoltsPerFold { get; } = chance.Uniform(32, 55);

    /// <summary>Share of the first strength.</summary>
    public double Pool { get; private set; } = chance.Uniform(0.9, 1.0);

    /// <summary>What air burns beside the usual, share of the pool in an hour.</summary>
    public double Leak { get; set; }

    public double Ph { get; private set; } = carbonate.Ph(20);

    /// <summary>True potential of the liquor, mV.</summary>
    public double Millivolts { get; private set; }

    /// <summary>Yarn goes in: so much of the pool goes with it, and it brings air.</summary>
    public void Dip(double share)
    {
        Pool = Math.Max(0, Pool - share);
        _air += 1;
    }

    public void Step(double seconds, double celsius)
    {
        var warmth = Math.Pow(_fold, (celsius - 45) / 10);
        Pool *= Math.Exp(-(_decay * warmth + Leak) * seconds / SecondsPerHour);
        _air *= Math.Exp(-seconds * (Pool + 0.03) / (_eating * 60));
        if ((_nextPh -= seconds) <= 0)
        {
            carbonate.Alkalinity = _start - _acid * (1 - Pool);
            Ph = carbonate.Ph(celsius);
            _nextPh = 180;
        }

        Millivolts = Best - MillivoltsPerFold * Math.Log((Pool + Remnant) / (1 + Remnant))
            + _airPull * _air + _phTerm * (Ph - _warmPh) + _warmTerm * (45 - celsius);
    }
}

/// <summary>An electrode for pH or ORP: lag, wander, drift, noise, steps. Not thread safe.</summary>
internal sealed class Electrode(Chance chance, double wander, double noise)
{
    private readonly Wander _wander = new(chance.Fork(), wander, chance.Uniform(2400, 9000));
    private readonly double _noise = noise;
    private double? _slow;
    private double _drifted;

    public required double Lag { get; init; }

    public required double Increment { get; init; }

    /// <summary>s.</summary>
    public required int Period { get; init; }

    /// <summary>In its own unit per hour; a film or a poisoned reference, nothing in the liquor.</summary>
    public double DriftPerHour { get; set; }

    public static Electrode ForOrp(Chance chance) => new(chance.Fork(), chance.Uniform(0.5, 3), chance.Uniform(0.1, 1.2))
    {
        Lag = chance.Spread(20, 300),
        Increment = chance.OneOf(0.1, 1),
        Period = chance.OneOf(10, 10, 30, 60),
    };

    public static Electrode ForPh(Chance chance) => new(chance.Fork(), chance.Uniform(0.003, 0.02), chance.Uniform(0.001, 0.01))
    {
        Lag = chance.Spread(5, 60),
        Increment = 0.01,
        Period = chance.OneOf(30, 60),
    };

    public void Step(double seconds, double truth)
    {
        _wander.Step(seconds);
        _slow = (_slow ?? truth) + (truth - (_slow ?? truth)) * (1 - Math.Exp(-seconds / Lag));
        _drifted += DriftPerHour * seconds / 3600;
    }

    public double Read() => Math.Round(Math.Round(((_slow ?? 0) + _drifted + _wander.Value + chance.Normal(_noise)) / Increment) * Increment, 4);
}
