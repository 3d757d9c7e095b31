namespace VatWatch.Alarms.Rules;

/// <summary>
/// A probe answers, but with what cannot be a value: open, shorted, out of its range. Or, for pH and ORP, with a value that has stopped moving
/// (<see cref="StuckWatch"/>); a temperature that has stopped moving is told by <see cref="HeatingFaultRule"/>.
/// </summary>
internal sealed class ProbeFaultRule : IAlarmRule
{
    private readonly StuckWatch _stuck;
    private readonly RuleContext _context;
    private readonly ProbeDefinition _probe;
    private readonly AlarmPriority _guarded;
    private string? _reason;
    private TimeSpan? _stuckFor;

    public ProbeFaultRule(RuleContext context, ProbeDefinition probe)
    {
        _context = context;
        _probe = probe;
        _stuck = new(probe);
        _guarded = context.Settings.OfGuard(probe.Quantity);
        Name = AlarmNames.Of(AlarmNames.ProbeFault, probe.Id);
        Settings = context.Settings.For(AlarmNames.ProbeFault);
        Rationale = new(
            "The probe is broken, unplugged at the instrument, out of the liquor or wired wrong.",
            probe.Quantity == Quantity.Temperature ? "The vat heats with nobody watching its temperature." : $"The {ProbeText.Noun(probe.Quantity)} of the vat is not watched.",
            ProbeText.Action(probe.Quantity),
            probe.Quantity == Quantity.Temperature ? "10 min while the heater may be on" : "before the next session");
    }

    public AlarmName Name { get; }

    public AlarmRuleSettings Settings { get; }

    public AlarmRationale Rationale { get; }

    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Id == _probe.Id;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var probe = evidence.Find(_probe.Id)!;
        var newest = probe.Answers(evidence.Now.Monotonic) ? probe.Newest : null;
        _stuckFor = _stuck.Evaluate(evidence.Condition, evidence.Now);
        var signal = newest?.Quality switch
        {
            Quality.Fault => AlarmSignal.Met,
            Quality.Good or Quality.Suspect when _stuckFor is not null => AlarmSignal.Met,
            Quality.Good or Quality.Suspect => AlarmSignal.Clear,
            _ => AlarmSignal.Unknown,
        };
        if (signal == AlarmSignal.Met)
        {
            _reason = _stuckFor is { } time ? NotMoved(time, probe.Value ?? 0) : newest!.Reason;
        }

        return new(signal, ProbeText.Priority(Settings, _guarded, probe, evidence)) { Note = _reason };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands)
    {
        var called = ProbeText.Called(_probe, _context.Vat);
        return new((finding.Signal, stands) switch
        {
            (AlarmSignal.Met, _) when _stuckFor is not null => $"The {called} {finding.Note}. Do not rely on it.",
            (AlarmSignal.Met, _) => $"Fault of {called}: {ProbeText.Clause(finding.Note)}.",
            (AlarmSignal.Unknown, true) => $"Fault of {called}, silent now: {ProbeText.Clause(finding.Note)}.",
            (_, true) => $"The {called} gives values again and is watched until they stay.",
            _ => $"The {called} reports no fault.",
        })
        {
            Action = _stuckFor is null ? null : "Unplug the heater, take that probe out, rinse it, and see whether its value moves in water. Look at its cable and its instrument.",
        };
    }

    private string NotMoved(TimeSpan time, double value) =>
        $"has shown exactly {_context.Units.Value(_probe.Quantity, value)} for {DisplayUnits.Duration(time)}, though it used to move";
}
