using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Liquor;
using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;

namespace VatWatch.Conditions;

/// <summary>
/// Works out one vat's condition from its measurements. Deterministic: time only comes in with stamps. Not thread safe; one per vat.
/// </summary>
public sealed class ConditionAssessor
{
    private readonly VatDefinition _vat;
    private readonly DisplayUnits _units;
    private readonly LiquorAssessor _liquor;
    private readonly ReductionAssessor _reduction;
    private readonly FrozenProbes _frozen;
    private readonly StateClassifier _classifier;

    /// <summary>Starts knowing nothing.</summary>
    public ConditionAssessor(VatDefinition vat, DisplayUnits units)
    {
        _vat = vat;
        _units = units;
        _liquor = new LiquorAssessor(vat, units);
        _reduction = new ReductionAssessor(vat);
        _frozen = new FrozenProbes(vat);
        _classifier = new StateClassifier(vat, units);
    }

    /// <summary>What has been learned of the vat's heat so far, to be kept for the next night.</summary>
    public LearnedHeat LearnedHeat => _liquor.Learned;

    /// <summary>What the vat shows on its good days; null when that is not known.</summary>
    public GoodBaseline? Baseline
    {
        get => _reduction.Baseline;
        set => _reduction.Baseline = value;
    }

    /// <summary>Takes up what an earlier run learned. One that no vat can have learned is left out.</summary>
    /// <returns>Whether it was taken up.</returns>
    public bool Restore(LearnedHeat learned) => _liquor.Restore(learned);

    /// <summary>A person did something to the vat.</summary>
    public void Note(VatAct act)
    {
        _liquor.Note(act);
        _reduction.Note(act);
    }

    /// <summary>Takes in a measurement of this vat.</summary>
    public void Accept(Measurement measurement)
    {
        _frozen.Accept(measurement);
        if (measurement.Quantity is Quantity.Ph or Quantity.Orp)
        {
            _reduction.Accept(measurement);
        }
        else
        {
            _liquor.Accept(measurement);
        }
    }

    /// <summary>The condition at <paramref name="now"/>.</summary>
    public VatCondition Assess(Stamp now)
    {
        var liquor = _liquor.Evaluate(now, _frozen);
        var reduction = _reduction.Evaluate(now, liquor.TemperatureC, _liquor.ColdSince, _frozen);
        var (state, reasons) = _classifier.Classify(new Evidence(
            now,
            liquor.TemperatureC,
            liquor.Trend,
            reduction.Ph,
            reduction.OrpMillivolts,
            reduction.Trend,
            liquor.WhyNot,
            reduction.NoPh,
            reduction.NoOrp)
        {
            PhWhenWarm = reduction.PhWhenWarm,
            Resting = reduction.Resting,
            IsDriftDoubted = reduction.Drift is not null,
            Margin = reduction.Margin,
        });
        return new VatCondition
        {
            Vat = _vat.Id,
            Stamp = now,
            State = state,
            Units = _units,
            Reasons = reasons,
            TemperatureC = liquor.TemperatureC,
            TemperatureStepK = _liquor.StepK,
            TemperatureRateKPerHour = liquor.Trend?.PerHour,
            TemperatureRateSigmaKPerHour = liquor.Trend?.StandardError,
            Ph = reduction.Ph,
            PhWhenWarm = reduction.PhWhenWarm,
            OrpMillivolts = reduction.OrpMillivolts,
            OrpRateMillivoltsPerHour = reduction.Trend?.PerHour,
            OrpRateSigmaMillivoltsPerHour = reduction.Trend?.StandardError,
            RestingFor = reduction.Resting?.FirstSince,
            Margin = reduction.Margin,
            FromGoodDays = reduction.FromGoodDays,
            Recoveries = reduction.Recoveries.Count == 0 ? [] : [.. reduction.Recoveries],
            TimeToBand = liquor.ToBand.Forecast,
            NoTimeToBand = liquor.ToBand.WhyNot,
            TimeToLimit = liquor.ToLimit.Forecast,
            NoTimeToLimit = liquor.ToLimit.WhyNot,
            WarmUp = liquor.WarmUp,
            Heat = liquor.Outlook,
            Diagnoses = Diagnoses(now, liquor, reduction),
        };
    }

    private List<Diagnosis> Diagnoses(Stamp now, LiquorSnapshot liquor, ReductionSnapshot reduction)
    {
        var all = liquor.Diagnoses;
        _frozen.Evaluate(now, all);
        if (reduction.Drift is { } drift)
        {
            all.Add(drift);
        }

        if (reduction.RunningOut is { } out_)
        {
            all.Add(out_);
        }

        return all;
    }
}
