using VatWatch.Nights.Physics;
using VatWatch.Probes.Recorded;
using VatWatch.Vats;

namespace VatWatch.Nights.Scenes;

/// <summary>A vat with its heater, probes and log, in a room, with a clock that a scene moves on. Not thread safe.</summary>
internal sealed class Studio
{
    /// <summary>How often the room is read, s.</summary>
    public const int RoomPeriod = 60;

    /// <summary>A workroom at night, for choices that are made before it, °C.</summary>
    public const double UsualRoom = 14;

    private const int LongestStep = 5;
    private const int StepUnwatched = 10;

    private static readonly DateTimeOffset FirstDay = new(2027, 1, 4, 0, 0, 0, TimeSpan.Zero);

    private readonly List<RecordedRow> _rows = [];
    private readonly List<TruePoint> _points = [];
    private readonly List<LogBookEntry> _entries = [];
    private readonly Chance _chance;
    private (double Capacity, double Celsius)? _yarn;
    private long _seconds;

    public Studio(Chance chance, StudioPlan plan)
    {
        (_chance, Plan) = (chance, plan);
        Room = new Room(chance.Fork());
        _seconds = plan.StartHour * 3600L;
        Room.Step(1, Hour);
        Liquor = new LayeredLiquor(plan.Body, plan.StartCelsius ?? Room.Celsius + chance.Uniform(0, plan.Lukewarm)) { LidOn = plan.Lidded };
        Heater = new Heater(plan.Watts, chance.Spread(10, 180), chance.Fork());
        Thermometer = Thermometer.Draw(chance.Fork(), plan.Coarse, plan.Body.ElementHeight);
        if (plan.HasBath)
        {
            Bath = new ReducingBath(chance.Fork(), CarbonateBath.AtPh(plan.Ph, 45, chance.Spread(0.008, 0.05)));
            Orp = Electrode.ForOrp(chance.Fork());
            PhElectrode = Electrode.ForPh(chance.Fork());
        }
    }

    public StudioPlan Plan { get; }

    public Room Room { get; }

    public LayeredLiquor Liquor { get; }

    public Heater Heater { get; }

    public Thermometer Thermometer { get; }

    public ReducingBath? Bath { get; }

    public Electrode? Orp { get; }

    public Electrode? PhElectrode { get; }

    public IReadOnlyList<RecordedRow> Rows => _rows;

    public IReadOnlyList<TruePoint> Points => _points;

    public IReadOnlyList<LogBookEntry> Entries => _entries;

    /// <summary>UTC.</summary>
    public DateTimeOffset Now => FirstDay.AddSeconds(_seconds);

    /// <summary>Last reading of the thermometer, °C.</summary>
    public double Shown { get; private set; }

    private double Hour => _seconds / 3600.0 % 24;

    /// <summary>Lets time pass with the watch on.</summary>
    public void Pass(double minutes) => PassUntil(minutes, () => false);

    /// <summary>Lets time pass until something is so, or for so long.</summary>
    /// <returns>Whether it came to be so.</returns>
    public bool PassUntil(double atMostMinutes, Func<bool> isSo)
    {
        var step = Math.Min(Thermometer.Period, LongestStep);
        for (var end = _seconds + (long)(atMostMinutes * 60); _seconds < end;)
        {
            Step(step);
            Log();
            if (isSo())
                return true;
        }

        return false;
    }

    /// <summary>Lets time pass with the watch switched off.</summary>
    public void PassUnwatched(double minutes)
    {
        for (var end = _seconds + (long)(minutes * 60) / StepUnwatched * StepUnwatched; _seconds < end;)
            Step(StepUnwatched);
    }

    /// <summary>Minutes from now to the next time the clock shows this hour.</summary>
    public double MinutesTo(double hour) => ((hour - Hour + 24) % 24) * 60;

    public void Enter(string entry, string value = "") => _entries.Add(new LogBookEntry(Now, entry, value));

    /// <summary>Cold wet yarn of this weight goes in, or comes out with null.</summary>
    public void Yarn(double? kilograms, double share)
    {
        _yarn = kilograms is { } weight ? (weight * 3500, Room.Celsius) : null;
        if (kilograms is not null)
            Bath?.Dip(share);
        Enter(kilograms is null ? "yarn-out" : "yarn-in");
        Liquor.Stir(_chance.Uniform(0.3, 0.9));
    }

    private void Step(int seconds)
    {
        _seconds += seconds;
        Room.Step(seconds, Hour);
        Heater.Step(seconds, Liquor);
        Liquor.Step(seconds, Heater.Given, Room.Celsius, Room.Humidity);
        if (_yarn is { } yarn)
        {
            var taken = yarn.Capacity * (Liquor.Mean - yarn.Celsius) * (1 - Math.Exp(-seconds / 100.0));
            Liquor.Draw(taken);
            _yarn = yarn with { Celsius = yarn.Celsius + taken / yarn.Capacity };
        }

        Thermometer.Step(seconds, Liquor, Room.Celsius);
        if (Bath is not null)
        {
            Bath.Step(seconds, Liquor.Mean);
            Orp!.Step(seconds, Bath.Millivolts);
            PhElectrode!.Step(seconds, Bath.Ph);
        }

        if (_seconds % 60 < seconds)
        {
            _points.Add(new TruePoint(Now, Liquor.Mean, Liquor.At(Thermometer.Height), Heater.Given, Bath?.Millivolts ?? 0, Bath?.Ph ?? 0));
        }
    }

    private void Log()
    {
        if (_seconds % Thermometer.Period == 0)
        {
            Shown = Thermometer.Read();
            Write(MadeNight.Liquor, Shown);
            if (Plan.HeaterProbe == StudioPlan.Command)
                Write("command", Heater.Commanded ? 1 : 0);
            else if (Plan.HeaterProbe == StudioPlan.Power)
                Write("heater", Plan.PowerUnit == "W" ? Math.Round(Heater.Drawn) : Heater.Drawn > 20 ? 1 : 0);
        }

        if (Plan.HasRoomProbe && _seconds % RoomPeriod == 0)
            Write("room", Math.Round((Room.Celsius + _chance.Normal(0.05)) * 16) / 16);
        if (Orp is not null && _seconds % Orp.Period == 0)
            Write("orp", Orp.Read());
        if (PhElectrode is not null && _seconds % PhElectrode.Period == 0)
            Write("ph", PhElectrode.Read());
    }

    private void Write(string probe, double value) => _rows.Add(new RecordedRow(_rows.Count + 2, Now, new ProbeId(probe), value));

    /// <summary>The vat in a line.</summary>
    public string Story()
    {
        var vat = $"{Plan.Body.Litres:0} L{(Plan.Lidded ? "" : " open")}, {Plan.Watts:0} W, band {Plan.Low:0.0}-{Plan.High:0.0} °C, limit {Plan.Limit:0.0} °C";
        var probe = $"probe every {Thermometer.Period} s in steps of {Thermometer.Increment} K, lag {Thermometer.Lag:0} s";
        var thermostat = Heater.Thermostat is { } set ? $"thermostat {set.Setting:0.0} °C less {set.Differential:0.0} K" : "no thermostat";
        var also = (Plan.HeaterProbe is { } heater ? $", {heater}" : "") + (Plan.HasRoomProbe ? ", room" : "") + (Plan.HasBath ? ", ORP and pH" : "");
        return $"{vat}, {probe}, {thermostat}{also}";
    }
}
