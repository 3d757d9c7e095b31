using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;
using VatWatch.Pipeline.Configuration;
using VatWatch.Readings;

namespace VatWatch.Pipeline;

/// <summary>
/// Everything that is worked out for one vat, as one synchronous and deterministic piece: readings go in, measurements, conditions and
/// alarm changes come out. No disk, no network, no timer; the daemon and a replay drive the same object. Not thread safe.
/// </summary>
public sealed class VatWatcher
{
    private readonly Dictionary<ProbeId, MeasurementMaker> _makers;
    private readonly Calibrator _calibrator;
    private readonly ConditionAssessor _assessor;
    private readonly AlarmBoard _board;

    /// <summary>The same vat watched once more in the other units, for its words alone; null when nobody reads them.</summary>
    private VatWatcher? _other;

    /// <summary>Starts with nothing measured and every alarm normal, and without calibrations.</summary>
    public VatWatcher(VatPlan plan, DisplayUnits units)
        : this(plan, units, new CalibrationCache())
    {
    }

    /// <summary>Starts with nothing measured and every alarm normal; <paramref name="shelf"/> may be filled by another thread.</summary>
    public VatWatcher(VatPlan plan, DisplayUnits units, CalibrationCache shelf)
    {
        Vat = plan.Definition;
        _calibrator = new Calibrator(Vat, shelf);
        _makers = Vat.Probes.ToDictionary(probe => probe.Id, probe => new MeasurementMaker(probe, _calibrator));
        _assessor = new ConditionAssessor(Vat, units);
        _board = new AlarmBoard(Vat, plan.Alarms, units);
    }

    /// <summary>A watcher whose alarms are told in both systems of units.</summary>
    public static VatWatcher InBothUnits(VatPlan plan, DisplayUnits units, CalibrationCache shelf) =>
        new(plan, units, shelf) { _other = new VatWatcher(plan, units.IsUs ? DisplayUnits.Si : DisplayUnits.Us, shelf) };

    /// <summary>The vat.</summary>
    public VatDefinition Vat { get; }

    /// <summary>Every alarm of the vat.</summary>
    public IReadOnlyList<AlarmStatus> Alarms => _board.All;

    /// <summary>What has been learned of the vat's heat so far.</summary>
    public LearnedHeat LearnedHeat => _assessor.LearnedHeat;

    /// <summary>What the vat shows on its good days; null when that is not known.</summary>
    public GoodBaseline? Baseline
    {
        get => _assessor.Baseline;
        set
        {
            _assessor.Baseline = value;
            _other?.Baseline = value;
        }
    }

    /// <summary>Takes up what an earlier run learned; false when it cannot be true of any vat.</summary>
    public bool Restore(LearnedHeat learned)
    {
        _other?.Restore(learned);
        return _assessor.Restore(learned);
    }

    /// <summary>A person did something to the vat.</summary>
    public void Note(VatAct act)
    {
        _assessor.Note(act);
        _other?.Note(act);
    }

    /// <summary>Takes alarms up where an earlier run left them.</summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        var kept = statuses.ToList();
        _board.Restore(kept, now);
        _other?.Restore(kept, now);
    }

    /// <summary>Judges one reading and every alarm that depends on it.</summary>
    public (Measurement Measurement, IReadOnlyList<AlarmChange> Changes) Accept(Reading reading)
    {
        var measurement = _makers[reading.Probe].Make(reading);
        if (measurement is { Quantity: Quantity.Temperature, GoodValue: { } temperatureC })
        {
            _calibrator.TakeTemperature(measurement.Probe, temperatureC, measurement.Stamp);
        }

        _assessor.Accept(measurement);
        return (measurement, InBoth(_board.Accept(measurement), _other?.Accept(reading).Changes));
    }

    /// <summary>Works out the condition and every alarm that depends on it or on time.</summary>
    public (VatCondition Condition, IReadOnlyList<AlarmChange> Changes) Tick(Stamp now)
    {
        var condition = _assessor.Assess(now);
        return (condition, InBoth(_board.Assess(condition, now), _other?.Tick(now).Changes));
    }

    /// <summary>Carries out what a person asks; no change means that there was nothing to do.</summary>
    public IReadOnlyList<AlarmChange> Carry(AlarmAct act, Stamp now) => InBoth(_board.Carry(act, now), _other?.Carry(act, now));

    /// <summary>The same evidence gives the same changes, in the same order; only the words differ.</summary>
    private static IReadOnlyList<AlarmChange> InBoth(IReadOnlyList<AlarmChange> changes, IReadOnlyList<AlarmChange>? others) => others is null || changes.Count == 0
        ? changes
        : [.. changes.Select((change, index) => index < others.Count && others[index].Status.Alarm == change.Status.Alarm
            ? change with { Status = change.Status with { TextInOtherUnits = others[index].Status.Text } }
            : change)];
}
