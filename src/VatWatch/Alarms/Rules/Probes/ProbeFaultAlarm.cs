using VatWatch.Alarms.Rules.Heat;

namespace VatWatch.Alarms.Rules.Probes;

/// <summary>
/// <c>probe-fault.PROBE</c>: a probe answers, but with what cannot be a value: open, shorted, out of its range. Or, for pH and ORP, with a value that has
/// stopped moving (<see cref="StuckWatch"/>). What comes while its bus is lost is that bus's to tell; a temperature that has stopped moving is told by <see cref="HeatingFaultAlarm"/>.
/// </summary>
internal sealed class ProbeFaultAlarm : IAlarmRule
{
    private readonly GuardedProbe _probe;
    private readonly StuckWatch _stuck;
    private Sentence _reason = GuardedProbe.Clause(null);
    private bool _isStuck;
    private TimeSpan? _busBack;

    private ProbeFaultAlarm(RuleContext context, ProbeDefinition probe)
    {
        _probe = new(context, probe);
        _stuck = new(probe);
        Name = new(Kind.Word, probe.Id.Value);
        Settings = context.Settings.For(Kind.Word);
        Rationale = _probe.Rationale("The probe is broken, unplugged at the instrument, out of the liquor or wired wrong.");
    }

    public static AlarmKind Kind { get; } = new("probe-fault", AlarmRuleSettings.Guard(null, "0:00:10", "0:01:00", "0:10:00"))
    {
        RulesFor = context => context.Vat.Probes.Select(probe => new ProbeFaultAlarm(context, probe)),
    };

    public AlarmName Name { get; }

    public AlarmRuleSettings Settings { get; }

    public AlarmRationale Rationale { get; }

    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Id == _probe.Definition.Id;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var probe = _probe.In(evidence);
        var now = evidence.Now.Monotonic;
        _busBack = evidence.IsBusLost(_probe.Definition.Bus) ? now : _busBack;
        var newest = probe.Answers(now) && !(probe.Newest!.Stamp.Monotonic <= _busBack) ? probe.Newest : null;
        var stuckFor = _stuck.Evaluate(evidence.Condition, evidence.Now);
        _isStuck = stuckFor is not null;
        var signal = newest?.Quality switch
        {
            Quality.Fault => AlarmSignal.Met,
            Quality.Good or Quality.Suspect => _isStuck ? AlarmSignal.Met : AlarmSignal.Clear,
            _ => AlarmSignal.Unknown,
        };
        if (signal == AlarmSignal.Met)
        {
            _reason = stuckFor is { } time ? NotMoved(time, probe.Value ?? 0) : Sentence.Told(GuardedProbe.Clause(newest!.Reason));
        }

        return new(signal, _probe.Priority(Settings, probe, evidence))
        {
            Note = _reason,
            Action = _isStuck ? "Unplug the heater, take that probe out, rinse it, and see whether its value moves in water. Look at its cable and its instrument." : null,
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands) => (finding.Signal, stands) switch
    {
        (AlarmSignal.Met, _) when _isStuck => new($"The {_probe.Called} {finding.Note}. Do not rely on it."),
        (AlarmSignal.Met, _) => new($"Fault of {_probe.Called}: {finding.Note}."),
        (AlarmSignal.Unknown, true) => new($"Fault of {_probe.Called}, silent now: {finding.Note}."),
        (_, true) => new($"The {_probe.Called} gives values again and is watched until they stay."),
        _ => new($"The {_probe.Called} reports no fault."),
    };

    private Sentence NotMoved(TimeSpan time, double value) =>
        new($"has shown exactly {Sentence.Of(_probe.Definition.Quantity, value)} for {DisplayUnits.Duration(time)}, though it used to move");
}
