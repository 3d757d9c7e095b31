namespace VatWatch.Nights.Physics;

/// <summary>An immersion heater on wandering mains, with the lag of its element, a hand switch and perhaps a thermostat. Not thread safe.</summary>
/// <param name="Watts">On the plate, at the mains' nominal voltage.</param>
/// <param name="ElementLag">Time in which the element warms, s.</param>
internal sealed class Heater(double Watts, double ElementLag, Chance chance)
{
    private readonly double _supply = 1 + chance.Normal(0.015);
    private readonly Wander _mains = new(chance.Fork(), chance.Uniform(0.004, 0.015), chance.Uniform(900, 5400));

    public double Rating => Watts;

    /// <summary>Switched on by hand, or by what commands it.</summary>
    public bool SwitchedOn { get; set; }

    /// <summary>What a relay was told; a welded relay does not care.</summary>
    public bool Commanded => SwitchedOn && (Thermostat?.Closed ?? true);

    /// <summary>The relay stays closed whatever it is told.</summary>
    public bool Welded { get; set; }

    /// <summary>False when a breaker is out or the plug is pulled.</summary>
    public bool Supplied { get; set; } = true;

    /// <summary>Share of the power that is left: 0.5 with one of two elements gone, 0 burnt out.</summary>
    public double Sound { get; set; } = 1;

    public Thermostat? Thermostat { get; set; }

    /// <summary>Power drawn, W.</summary>
    public double Drawn { get; private set; }

    /// <summary>Power that reaches the liquor, W.</summary>
    public double Given { get; private set; }

    public void Step(double seconds, LayeredLiquor liquor)
    {
        _mains.Step(seconds);
        Thermostat?.Step(seconds, liquor);
        var volts = _supply + _mains.Value;
        Drawn = Supplied && (Welded || Commanded) ? Watts * Sound * volts * volts : 0;
        Given += (Drawn - Given) * (1 - Math.Exp(-seconds / ElementLag));
    }
}

/// <summary>A bulb and a contact: it cuts out at its setting and in again below it, each time a little elsewhere. Not thread safe.</summary>
internal sealed class Thermostat(Chance chance)
{
    private double? _bulb;
    private double _scattered = double.NaN;

    /// <summary>Where it cuts out, °C.</summary>
    public required double Setting { get; init; }

    /// <summary>How far below that it cuts in, K.</summary>
    public required double Differential { get; init; }

    public required double Scatter { get; init; }

    /// <summary>s.</summary>
    public required double BulbLag { get; init; }

    public required double BulbHeight { get; init; }

    /// <summary>The contact has welded: it closes once more and never opens.</summary>
    public bool Stuck { get; set; }

    public bool Closed { get; private set; } = true;

    /// <summary>A thermostat of any make, its bulb no lower than the element.</summary>
    public static Thermostat Draw(Chance chance, double setting, double elementHeight) => new(chance.Fork())
    {
        Setting = setting,
        Differential = chance.Spread(0.2, 3.5),
        Scatter = chance.Uniform(0.02, 0.35),
        BulbLag = chance.Spread(15, 300),
        BulbHeight = chance.Uniform(Math.Max(0.15, elementHeight), 0.85),
    };

    public void Step(double seconds, LayeredLiquor liquor)
    {
        var around = liquor.At(BulbHeight);
        _bulb = (_bulb ?? around) + (around - (_bulb ?? around)) * (1 - Math.Exp(-seconds / BulbLag));
        if (double.IsNaN(_scattered))
        {
            Closed = Stuck || _bulb < Setting;
            Turn();
        }

        if (Closed && !Stuck && _bulb > _scattered)
        {
            Closed = false;
            Turn();
        }
        else if (!Closed && _bulb < _scattered)
        {
            Closed = true;
            Turn();
        }
    }

    private void Turn() => _scattered = Setting - (Closed ? 0 : Differential) + chance.Normal(Scatter);
}

/// <summary>The room: a day's swing, a wander, and its own humidity. Not thread safe.</summary>
internal sealed class Room(Chance chance)
{
    private readonly double _mean = chance.Uniform(10, 22);
    private readonly double _swing = chance.Uniform(0.5, 4.5);
    private readonly Wander _wander = new(chance.Fork(), chance.Uniform(0.1, 0.6), chance.Uniform(1200, 7200));

    public double Humidity { get; } = chance.Uniform(0.3, 0.8);

    /// <summary>°C; warmest at four in the afternoon.</summary>
    public double Celsius { get; private set; }

    /// <summary>What it is over a night, for choices that must be made before it.</summary>
    public double Night => _mean - 0.6 * _swing;

    public void Step(double seconds, double hourOfDay)
    {
        _wander.Step(seconds);
        Celsius = _mean + _swing * Math.Cos(Math.Tau * (hourOfDay - 16) / 24) + _wander.Value;
    }
}
