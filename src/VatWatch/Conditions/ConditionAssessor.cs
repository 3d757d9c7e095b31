using VatWatch.Measurements;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Conditions;

/// <summary>
/// Works out one vat's condition from its measurements. Deterministic: time only comes in with stamps. Not thread safe; one per vat.
/// </summary>
public sealed class ConditionAssessor
{
    /// <summary>Long enough for a slope good to about 0.2 K/h at 0.06 K of noise every 10 s, short enough to see a heater go off.</summary>
    private static readonly TimeSpan TemperatureWindow = TimeSpan.FromMinutes(10);

    /// <summary>A dip's transient passes in 20 to 60 min; the trend of ORP needs a window of that length.</summary>
    private static readonly TimeSpan OrpWindow = TimeSpan.FromMinutes(30);

    /// <summary>A line through less than this part of its window says nothing yet.</summary>
    private const double LeastFilled = 0.4;

    private readonly VatDefinition _vat;
    private readonly NewestValue _temperature;
    private readonly NewestValue _ph;
    private readonly NewestValue _orp;
    private readonly TrendWindow _temperatureTrend = new(TemperatureWindow);
    private readonly TrendWindow _orpTrend = new(OrpWindow);
    private readonly StateJudge _judge;

    /// <summary>Starts knowing nothing.</summary>
    public ConditionAssessor(VatDefinition vat, DisplayUnits units)
    {
        _vat = vat;
        _temperature = new NewestValue(vat, Measures.Temperature);
        _ph = new NewestValue(vat, Measures.Ph);
        _orp = new NewestValue(vat, Measures.Orp);
        _judge = new StateJudge(vat, units);
    }

    /// <summary>Takes in a measurement of this vat.</summary>
    public void Accept(Measurement measurement)
    {
        switch (measurement.Measures)
        {
            case Measures.Temperature:
                _temperature.Accept(measurement);
                if (_temperature.Reliable(measurement.Stamp) is { } hottest && hottest.Probe == measurement.Probe)
                {
                    _temperatureTrend.Add(measurement.Stamp.Monotonic, hottest.Value!.Value);
                }

                break;
            case Measures.Ph:
                _ph.Accept(measurement);
                break;
            case Measures.Orp:
                _orp.Accept(measurement);
                if (measurement.GoodValue is { } millivolts)
                {
                    _orpTrend.Add(measurement.Stamp.Monotonic, millivolts);
                }

                break;
        }
    }

    /// <summary>The condition at <paramref name="now"/>.</summary>
    public VatCondition Assess(Stamp now)
    {
        _temperatureTrend.Forget(now.Monotonic);
        _orpTrend.Forget(now.Monotonic);
        var temperature = _temperature.Reliable(now)?.Value;
        var ph = _ph.Reliable(now)?.Value;
        var orp = _orp.Reliable(now)?.Value;
        var rise = temperature is null ? null : Usable(_temperatureTrend, TemperatureWindow);
        var orpRise = orp is null ? null : Usable(_orpTrend, OrpWindow);

        var evidence = new Evidence(
            now,
            temperature,
            rise,
            ph,
            orp,
            orpRise,
            temperature is null ? $"no usable temperature: {_temperature.WhyNot(now)}" : null,
            _ph.IsWatched && ph is null ? $"no usable pH: {_ph.WhyNot(now)}" : null,
            _orp.IsWatched && orp is null ? $"no usable ORP: {_orp.WhyNot(now)}" : null);
        var (state, reasons) = _judge.Judge(evidence);
        return new VatCondition
        {
            Vat = _vat.Id,
            Stamp = now,
            State = state,
            Reasons = reasons,
            TemperatureC = temperature,
            TemperatureRateKPerHour = rise?.PerHour,
            Ph = ph,
            OrpMillivolts = orp,
            OrpRateMillivoltsPerHour = orpRise?.PerHour,
            TimeToBand = temperature < _vat.Temperature.LowC && rise is { } toBand ? StraightLineForecast.TimeTo(_vat.Temperature.LowC, toBand) : null,
            TimeToLimit = temperature < _vat.Temperature.LimitC && rise is { } toLimit ? StraightLineForecast.TimeTo(_vat.Temperature.LimitC, toLimit) : null,
        };
    }

    private static Trend? Usable(TrendWindow window, TimeSpan length) => window.Span >= length * LeastFilled ? window.Line() : null;
}
