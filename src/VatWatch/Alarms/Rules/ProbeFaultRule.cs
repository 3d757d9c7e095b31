using VatWatch.Vats;

namespace VatWatch.Alarms.Rules;

/// <summary>A probe answers, but with what cannot be a value: open, shorted, frozen, out of its range.</summary>
internal sealed class ProbeFaultRule : IAlarmRule
{
    private readonly RuleContext _context;
    private readonly ProbeDefinition _probe;
    private readonly AlarmPriority _guarded;
    private string? _reason;

    public ProbeFaultRule(RuleContext context, ProbeDefinition probe)
    {
        _context = context;
        _probe = probe;
        _guarded = context.Settings.OfGuard(probe.Measures);
        Name = AlarmNames.Of(AlarmNames.ProbeFault, probe.Id);
        Settings = context.Settings.For(AlarmNames.ProbeFault);
        Rationale = new(
            "The probe is broken, unplugged at the instrument, out of the liquor or wired wrong.",
            probe.Measures == Measures.Temperature ? "The vat heats with nobody watching its temperature." : $"The {ProbeWords.Noun(probe.Measures)} of the vat is not watched.",
            ProbeWords.Action(probe.Measures),
            probe.Measures == Measures.Temperature ? "10 min while the heater may be on" : "before the next session");
    }

    /// <inheritdoc/>
    public AlarmName Name { get; }

    /// <inheritdoc/>
    public AlarmRuleSettings Settings { get; }

    /// <inheritdoc/>
    public AlarmRationale Rationale { get; }

    /// <inheritdoc/>
    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Id == _probe.Id;

    /// <inheritdoc/>
    public AlarmFinding Look(VatEvidence evidence)
    {
        var probe = evidence.Find(_probe.Id)!;
        var newest = probe.Answers(evidence.Now.Monotonic) ? probe.Newest : null;
        var signal = newest?.Quality switch
        {
            Quality.Fault => AlarmSignal.Met,
            Quality.Good or Quality.Suspect => AlarmSignal.Clear,
            _ => AlarmSignal.Unknown,
        };
        _reason = signal == AlarmSignal.Met ? newest!.Reason : _reason;
        return new(signal, ProbeWords.Priority(Settings, _guarded, probe, evidence)) { Note = _reason };
    }

    /// <inheritdoc/>
    public AlarmTelling Tell(in AlarmFinding finding, bool stands)
    {
        var called = ProbeWords.Called(_probe, _context.Vat);
        return new((finding.Signal, stands) switch
        {
            (AlarmSignal.Met, _) => $"Fault of {called}: {ProbeWords.Clause(finding.Note)}.",
            (AlarmSignal.Unknown, true) => $"Fault of {called}, silent now: {ProbeWords.Clause(finding.Note)}.",
            (_, true) => $"The {called} gives values again and is watched until they stay.",
            _ => $"The {called} reports no fault.",
        });
    }
}
