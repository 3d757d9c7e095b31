using VatWatch.Conditions.Heating;
using VatWatch.Measurements;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Conditions;

/// <summary>
/// Works out one vat's condition from its measurements. Deterministic: time only comes in with stamps. Not thread safe; one per vat.
/// </summary>
public sealed class ConditionAssessor
{
    /// <summary>A dip's transient passes in 20 to 60 min; the trend of ORP needs a window of that length.</summary>
    private static readonly TimeSpan OrpWindow = TimeSpan.FromMinutes(30);

    private readonly VatDefinition _vat;
    private readonly LiquorSide _liquor;
    private readonly NewestValue _ph;
    private readonly NewestValue _orp;
    private readonly TrendWindow _orpTrend = new(OrpWindow);
    private readonly FrozenProbes _frozen;
    private readonly StateJudge _judge;

    /// <summary>Starts knowing nothing.</summary>
    public ConditionAssessor(VatDefinition vat, DisplayUnits units)
    {
        _vat = vat;
        _liquor = new LiquorSide(vat, units);
        _ph = new NewestValue(vat, Measures.Ph);
        _orp = new NewestValue(vat, Measures.Orp);
        _frozen = new FrozenProbes(vat, units);
        _judge = new StateJudge(vat, units);
    }

    /// <summary>What has been learned of the vat's heat so far, to be kept for the next night.</summary>
    public LearnedHeat LearnedHeat => _liquor.Learned;

    /// <summary>Takes up what an earlier run learned. One that no vat can have learned is left out.</summary>
    /// <returns>Whether it was taken up.</returns>
    public bool Restore(LearnedHeat learned) => _liquor.Restore(learned);

    /// <summary>A person did something to the vat.</summary>
    public void Note(VatAct act) => _liquor.Note(act);

    /// <summary>Takes in a measurement of this vat.</summary>
    public void Accept(Measurement measurement)
    {
        _frozen.Accept(measurement);
        switch (measurement.Measures)
        {
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
            default:
                _liquor.Accept(measurement);
                break;
        }
    }

    /// <summary>The condition at <paramref name="now"/>.</summary>
    public VatCondition Assess(Stamp now)
    {
        _orpTrend.Forget(now.Monotonic);
        var liquor = _liquor.Look(now, _frozen);
        var ph = _ph.Reliable(now)?.Value;
        var orp = _orp.Reliable(now)?.Value;
        var orpRise = orp is not null && _orpTrend.Span >= OrpWindow * 0.4 ? _orpTrend.Line() : null;

        var evidence = new Evidence(
            now,
            liquor.TemperatureC,
            liquor.Trend,
            ph,
            orp,
            orpRise,
            liquor.WhyNot,
            _ph.IsWatched && ph is null ? $"no usable pH: {_ph.WhyNot(now)}" : null,
            _orp.IsWatched && orp is null ? $"no usable ORP: {_orp.WhyNot(now)}" : null);
        var (state, reasons) = _judge.Judge(evidence);
        return new VatCondition
        {
            Vat = _vat.Id,
            Stamp = now,
            State = state,
            Reasons = reasons,
            TemperatureC = liquor.TemperatureC,
            TemperatureRateKPerHour = liquor.Trend?.PerHour,
            Ph = ph,
            OrpMillivolts = orp,
            OrpRateMillivoltsPerHour = orpRise?.PerHour,
            TimeToBand = liquor.ToBand.Forecast,
            NoTimeToBand = liquor.ToBand.WhyNot,
            TimeToLimit = liquor.ToLimit.Forecast,
            NoTimeToLimit = liquor.ToLimit.WhyNot,
            Heat = liquor.Outlook,
            Diagnoses = [.. liquor.Diagnoses, .. _frozen.Look(now)],
        };
    }
}
