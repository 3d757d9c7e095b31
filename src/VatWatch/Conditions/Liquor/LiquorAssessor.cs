using VatWatch.Conditions.Heating.Signals;
using VatWatch.Conditions.Heating;
using VatWatch.Measurements;

namespace VatWatch.Conditions.Liquor;

/// <summary>
/// The warm half of a vat's condition: which temperature counts, its slope, the heat balance, forecasts and diagnoses of the heating.
/// Not thread safe.
/// </summary>
internal sealed class LiquorAssessor
{
    /// <summary>Long enough for a slope good to about 0.2 K/h at 0.06 K of noise every 10 s, short enough to see a heater go off.</summary>
    private static readonly TimeSpan TrendLength = TimeSpan.FromMinutes(10);

    /// <summary>A line through less than this part of its window says nothing yet.</summary>
    private const double LeastFilled = 0.4;

    /// <summary>Of several probes the hottest counts; the heat balance changes over only to one clearly hotter than the one it follows.</summary>
    private const double ClearlyHotterK = 0.5;

    /// <summary>A room changes slowly: its probe may be silent this long.</summary>
    private static readonly TimeSpan RoomHolds = TimeSpan.FromMinutes(30);

    /// <summary>A rise that the noise seen cannot make: beyond this many standard errors, and not slower than this, K/h.</summary>
    private const double SureDeviations = 2.5;
    private const double LeastRiseKPerHour = 0.3;

    /// <summary>A rate with the heater on is well known to this share.</summary>
    private const double KnownShare = 0.15;

    private readonly VatDefinition _vat;
    private readonly DisplayUnits _units;
    private readonly NewestValue _temperature;
    private readonly NewestValue _heater;
    private readonly NewestValue _level;
    private readonly TrendWindow _trend = new(TrendLength);
    private readonly HeatTracker _tracker;
    private readonly HeatDiagnoser _diagnoser;
    private ProbeId? _followed;
    private Measurement? _room;
    private bool? _flows;
    private bool? _commanded;
    private HeatSnapshot? _heat;
    private (double LiquorC, double? RoomC) _heatOf;
    private string? _switchedOff;
    private double _offC;

    public LiquorAssessor(VatDefinition vat, DisplayUnits units)
    {
        _vat = vat;
        _units = units;
        _temperature = new NewestValue(vat, Quantity.Temperature);
        _heater = new NewestValue(vat, Quantity.Heater);
        _level = new NewestValue(vat, Quantity.Level);
        _tracker = new HeatTracker(vat);
        _diagnoser = new HeatDiagnoser(vat, _tracker);
    }

    public LearnedHeat Learned => _tracker.Balance.Learned(_tracker.Thermostat.OffC) with { Usual = _tracker.Earlier.Kept };

    /// <summary>When something cold last went in, as the temperature shows it; null when nothing did.</summary>
    public TimeSpan? ColdSince => _tracker.Step?.Since;

    /// <summary>Smallest step that the thermometer that is followed has shown, K.</summary>
    public double StepK => _tracker.StepK;

    public bool Restore(LearnedHeat learned)
    {
        if (!learned.IsPlausible)
        {
            return false;
        }

        _heat = null;
        _tracker.Balance.Restore(learned);
        _tracker.Thermostat.Restore(learned.ThermostatC);
        if (learned.Usual is { } usual)
        {
            _tracker.Earlier.Restore(usual);
        }

        return true;
    }

    public void Note(VatAct act)
    {
        _heat = null;
        _tracker.Note(act);
        if (act.Kind is not (VatActKind.HeaterOn or VatActKind.HeaterOff))
        {
            _trend.Clear();
        }
    }

    public void Accept(Measurement measurement)
    {
        _heat = null;
        switch (measurement.Quantity)
        {
            case Quantity.Temperature:
                _temperature.Accept(measurement);
                Follow(measurement);
                break;
            case Quantity.Ambient when measurement.GoodValue is not null:
                _room = measurement;
                break;
            case Quantity.Heater:
                _heater.Accept(measurement);
                _tracker.Earlier.Draw.Add(measurement.Stamp.Monotonic, measurement.GoodValue);
                TakePower(measurement.Stamp, measurement.GoodValue is { } value ? QuantityText.IsHeating(value) : null);
                break;
            case Quantity.HeaterCommand:
                TakeCommand(measurement.Stamp, measurement.GoodValue is { } told ? QuantityText.IsHeating(told) : null);
                break;
            case Quantity.Level:
                _level.Accept(measurement);
                break;
        }
    }

    public LiquorSnapshot Evaluate(Stamp now, FrozenProbes frozen)
    {
        _trend.Forget(now.Monotonic);
        if (_heater.IsWatched && _heater.Reliable(now) is null)
        {
            _tracker.Heater.Tell(now.Monotonic, null);
            _heat = null;
        }

        if (_temperature.Reliable(now) is not { } hottest)
        {
            return Without(now, $"no usable temperature: {_temperature.WhyNot(now)}", []);
        }

        var liquorC = hottest.Value!.Value;
        var roomC = RoomC(now);
        var heat = Heat(liquorC, roomC);
        List<Diagnosis> diagnoses = [.. _diagnoser.Evaluate(now, heat, _level.Reliable(now)?.Value, PowerFlows(now))];
        if (_tracker.Fall.Kind == FallKind.OutOfLiquor && hottest.Probe == _followed)
        {
            return Without(now, $"no usable temperature: probe {hottest.Probe} seems to hang in air", diagnoses);
        }

        Sentence orOff = liquorC < _vat.Temperature.LowC ? " If the heater was switched off, enter it." : "";
        var stopped = _tracker.FrozenSince is { } since && hottest.Probe == _followed && !frozen.Holds(hottest.Probe)
            ? new Diagnosis(DiagnosisKind.FrozenValue, new($"Probe {hottest.Probe.Value} has shown exactly {liquorC:°C} for {DisplayUnits.Duration(now.Monotonic - since)}, though the liquor was moving and should have moved on. Do not rely on it.{orOff}"))
            {
                Probe = hottest.Probe,
                Since = now.Plus(since - now.Monotonic),
            }
            : null;
        if (stopped is not null || frozen.Holds(hottest.Probe))
        {
            if (stopped is not null)
            {
                diagnoses.Add(stopped);
            }

            return Without(now, $"no usable temperature: probe {hottest.Probe} repeats one value", diagnoses);
        }

        var start = heat.Line is { } line && hottest.Probe == _followed ? Carried(line, now, liquorC) : liquorC;
        var outlook = new HeatOutlook(heat.Estimate, start, heat.HeaterOn, heat.RateOn, _units, _tracker.Thermostat.ExpectedC, _vat.BoilingC, _tracker.StepK);
        var trend = _trend.Span >= TrendLength * LeastFilled ? _trend.Line() : null;
        var toBand = ToBand(liquorC, outlook, trend);
        return new LiquorSnapshot(liquorC, null, trend, outlook, toBand, ToLimit(liquorC, outlook, heat), diagnoses)
        {
            WarmUp = _tracker.WarmUp.Evaluate(now, liquorC, heat.Estimate, PowerFlows(now), toBand),
        };
    }

    private void TakePower(Stamp at, bool? flows)
    {
        _tracker.Heater.Tell(at.Monotonic, flows);
        _flows = flows;
        _tracker.WarmUp.Follow(at, ShouldHeat);
    }

    private void TakeCommand(Stamp at, bool? on)
    {
        _diagnoser.TakeCommand(at.Monotonic, on);
        _commanded = on;
        _tracker.WarmUp.Follow(at, ShouldHeat);
    }

    /// <summary>A rise is expected of power that flows, and of a command, which says what should be.</summary>
    private bool? ShouldHeat => _flows == true || _commanded == true ? true : _flows ?? _commanded;

    private void Follow(Measurement measurement)
    {
        var now = measurement.Stamp;
        if (measurement.GoodValue is not { } value || _temperature.Reliable(now) is not { } hottest)
        {
            return;
        }

        var followed = _followed is { } id ? _temperature.Reliable(now, id) : null;
        if (followed is null || hottest.Value > followed.Value + ClearlyHotterK)
        {
            if (_followed is not null && _followed != hottest.Probe)
            {
                _tracker.ChangeProbe(now.Monotonic);
                _trend.Clear();
            }

            _followed = hottest.Probe;
        }

        if (measurement.Probe == _followed && _tracker.Add(now.Monotonic, value, RoomC(now)))
        {
            _trend.Add(now.Monotonic, value);
        }
    }

    /// <summary>The line's value now: steadier than the newest sample, unless the two have parted.</summary>
    private static double Carried(RateLine line, Stamp now, double liquorC)
    {
        var middleC = line.NewestC - line.KPerHour * line.Span.TotalHours / 2;
        var carried = middleC + line.KPerHour * (now.Monotonic - line.MeanAt).TotalHours;
        return Math.Abs(carried - liquorC) < 0.5 ? carried : liquorC;
    }

    private double? RoomC(Stamp now) => _room is { } room && now.Since(room.Stamp) <= RoomHolds ? room.Value : null;

    private ForecastAnswer ToBand(double liquorC, HeatOutlook outlook, Trend? trend)
    {
        if (liquorC >= _vat.Temperature.LowC)
        {
            return new(null, "the liquor is in the band or above it");
        }

        return outlook.HeaterOn switch
        {
            true => outlook.TimeTo(_vat.Temperature.LowC),
            false => new(null, "the heater is off"),
            null when trend is { } seen && seen.PerHour > 2 * seen.StandardError => outlook.TimeTo(_vat.Temperature.LowC),
            null => new(null, "it is not known yet whether the heater is on"),
        };
    }

    private ForecastAnswer ToLimit(double liquorC, HeatOutlook outlook, HeatSnapshot heat)
    {
        var limitC = _vat.Temperature.LimitC;
        if (liquorC >= limitC)
        {
            return new(null, "the liquor is at the limit or above it");
        }

        if (outlook.HeaterOn is not { } on)
        {
            return new(null, "it is not known yet whether the heater is on");
        }

        if (!on)
        {
            return new(null, "the heater is off");
        }

        if (_tracker.StuckAboveC is { } stuckC && liquorC < stuckC && stuckC < limitC)
        {
            return new(null, SwitchedOffAt(_tracker.Thermostat.ExpectedC!.Value));
        }

        // Before there is a slope only a heater that is well known tells how fast it will be.
        var rises = heat.Line is { } line ? line.KPerHour > Math.Max(LeastRiseKPerHour, SureDeviations * line.Sigma) : heat.RateOn.Sigma < KnownShare * heat.RateOn.KPerHour;
        return rises ? outlook.TimeTo(limitC) : new(null, "no rise is seen that is more than the thermometer's own noise");
    }

    private string SwitchedOffAt(double offC)
    {
        if (_switchedOff is null || _offC != offC)
        {
            (_offC, _switchedOff) = (offC, $"the thermostat has switched off at {_units.Temperature(offC)} before");
        }

        return _switchedOff;
    }

    /// <summary>What the heat balance says, which is the same until something new is read or told.</summary>
    private HeatSnapshot Heat(double liquorC, double? roomC)
    {
        if (_heat is null || _heatOf != (liquorC, roomC))
        {
            (_heatOf, _heat) = ((liquorC, roomC), _tracker.Evaluate(liquorC, roomC));
        }

        return _heat;
    }

    private LiquorSnapshot Without(Stamp now, string why, List<Diagnosis> diagnoses) =>
        new(null, why, null, null, new(null, why), new(null, why), diagnoses)
        {
            WarmUp = _tracker.WarmUp.Evaluate(now, null, _tracker.Balance.Estimate(RoomC(now)), PowerFlows(now), new(null, why)),
        };

    private bool? PowerFlows(Stamp now) => _heater.Reliable(now)?.Value is { } value ? QuantityText.IsHeating(value) : null;
}
