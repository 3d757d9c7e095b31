using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Calibration;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;
using VatWatch.Pipeline.Configuration;
using VatWatch.Plans.Warm;
using VatWatch.Probes;
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

    /// <summary>Starts with nothing measured and every alarm normal, and without calibrations.</summary>
    public VatWatcher(VatPlan plan, DisplayUnits units)
        : this(plan, units, new CalibrationCache())
    {
    }

    /// <summary>Starts with nothing measured and every alarm normal; <paramref name="calibrations"/> may be filled by another thread.</summary>
    /// <param name="units">Units of the condition's words.</param>
    /// <param name="isBusLost">Whether a bus is away and has an alarm of its own that speaks for its probes; null for never.</param>
    public VatWatcher(VatPlan plan, DisplayUnits units, CalibrationCache calibrations, Func<BusId, bool>? isBusLost = null)
    {
        Vat = plan.Definition;
        _calibrator = new Calibrator(Vat, calibrations);
        _makers = Vat.Probes.ToDictionary(probe => probe.Id, probe => new MeasurementMaker(probe, _calibrator));
        _assessor = new ConditionAssessor(Vat, units);
        _board = new AlarmBoard(Vat, plan.Alarms, isBusLost);
    }

    public VatDefinition Vat { get; }

    /// <summary>Where instruments that must be told the liquor's temperature find it; null when there is none.</summary>
    public KnownTemperatures? Known { get; init; }

    public IReadOnlyList<AlarmStatus> Alarms => _board.All;

    /// <summary>What has been learned of the vat's heat so far.</summary>
    public LearnedHeat LearnedHeat => _assessor.LearnedHeat;

    /// <summary>What the vat shows on its good days; null when that is not known.</summary>
    public GoodBaseline? Baseline { set => _assessor.Baseline = value; }

    /// <summary>The heater that a kept plan wants on; null when no plan does.</summary>
    public HeaterDue? HeaterDue { set => _board.HeaterDue = value; }

    /// <summary>Takes up what an earlier run learned; false when it cannot be true of any vat.</summary>
    public bool Restore(LearnedHeat learned) => _assessor.Restore(learned);

    /// <summary>A person did something to the vat.</summary>
    public void Note(VatAct act) => _assessor.Note(act);

    /// <summary>The watch stood still until now: what was not read meanwhile is not a probe's silence.</summary>
    public void Resume(Stamp now) => _board.Resume(now);

    /// <summary>Takes alarms up where an earlier run left them.</summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now) => _board.Restore(statuses, now);

    /// <summary>Takes no alarm up: the vat is simulated, and another one than that of the earlier run.</summary>
    public void BeginAnew(IEnumerable<AlarmStatus> statuses, Stamp now) => _board.BeginAnew(statuses, now);

    /// <summary>Judges one reading and every alarm that depends on it.</summary>
    public (Measurement Measurement, IReadOnlyList<AlarmChange> Changes) Accept(Reading reading)
    {
        var maker = _makers[reading.Probe];
        var measurement = maker.Make(reading);
        if (measurement is { Quantity: Quantity.Temperature, GoodValue: { } temperatureC })
        {
            _calibrator.TakeTemperature(measurement.Probe, temperatureC, measurement.Stamp);
            Known?.Note(Vat.Id, _calibrator.LiquorC(measurement.Stamp) ?? temperatureC, maker.Probe.Every);
        }

        _assessor.Accept(measurement);
        return (measurement, _board.Accept(measurement));
    }

    /// <summary>Works out the condition and every alarm that depends on it or on time.</summary>
    public (VatCondition Condition, IReadOnlyList<AlarmChange> Changes) Tick(Stamp now)
    {
        var condition = _assessor.Assess(now);
        return (condition, _board.Assess(condition, now));
    }

    /// <summary>Carries out what a person asks; no change means that there was nothing to do.</summary>
    public IReadOnlyList<AlarmChange> Carry(AlarmAct act, Stamp now) => _board.Carry(act, now);
}
