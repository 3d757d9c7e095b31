namespace VatWatch.Alarms.Rules;

/// <summary>
/// No good or suspect value from a probe for its time of silence. Suppressed while the probe does answer, but only with faults: that is
/// <see cref="ProbeFaultRule"/>'s to tell.
/// </summary>
internal sealed class ProbeSilentRule : IAlarmRule
{
    private readonly RuleContext _context;
    private readonly ProbeDefinition _probe;
    private readonly AlarmPriority _guarded;
    private readonly TimeSpan? _faultTakesOver;

    public ProbeSilentRule(RuleContext context, ProbeDefinition probe)
    {
        _context = context;
        _probe = probe;
        _guarded = context.Settings.OfGuard(probe.Quantity);
        var fault = context.Settings.For(AlarmNames.ProbeFault);
        _faultTakesOver = fault.Enabled ? fault.OnDelay ?? TimeSpan.Zero : null;
        Name = AlarmNames.Of(AlarmNames.ProbeSilent, probe.Id);
        // The time of silence is the delay; the lifecycle adds none.
        Settings = context.Settings.For(AlarmNames.ProbeSilent) with { OnDelay = TimeSpan.Zero };
        Rationale = new(
            "The probe, its cable, its instrument, its bus or the power has failed.",
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
        var now = evidence.Now.Monotonic;
        var silence = now - probe.ValueAt;
        return new(silence >= probe.SilentAfter ? AlarmSignal.Met : AlarmSignal.Clear, ProbeText.Priority(Settings, _guarded, probe, evidence))
        {
            Value = silence.TotalSeconds,
            Limit = probe.SilentAfter.TotalSeconds,
            Suppressed = now - probe.FaultSince >= _faultTakesOver && probe.Answers(now),
            Note = probe.Newest is { Quality: Quality.Missing, Reason: { } reason } ? $" ({ProbeText.Clause(reason)})" : null,
        };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands)
    {
        var called = ProbeText.Called(_probe, _context.Vat);
        var text = finding.Signal == AlarmSignal.Met
            ? $"No reading from {called} for {DisplayUnits.Duration(TimeSpan.FromSeconds(finding.Value ?? 0))}{finding.Note}."
            : $"Readings from {called} {(stands ? "are coming again and are watched until they stay" : "are coming")}.";
        return new(text)
        {
            Value = finding.Value is { } seconds ? Math.Floor(seconds) : null,
            Limit = finding.Limit,
            Unit = "s",
        };
    }
}
