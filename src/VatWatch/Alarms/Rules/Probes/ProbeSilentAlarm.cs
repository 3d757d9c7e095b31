namespace VatWatch.Alarms.Rules.Probes;

/// <summary>
/// <c>probe-silent.PROBE</c>: no good or suspect value from a probe for its time of silence. Suppressed while the probe does answer, but only with
/// faults: that is <see cref="ProbeFaultAlarm"/>'s to tell. While its bus is lost that bus's alarm speaks for it, and its silence counts from the
/// bus's return; so it does from when the watch itself went on after it had stood still.
/// </summary>
internal sealed class ProbeSilentAlarm : IAlarmRule
{
    private readonly GuardedProbe _probe;
    private readonly TimeSpan? _faultTakesOver;
    private TimeSpan _busBack;

    private ProbeSilentAlarm(RuleContext context, ProbeDefinition probe)
    {
        _probe = new(context, probe);
        var fault = context.Settings.For(ProbeFaultAlarm.Kind.Word);
        _faultTakesOver = fault.Enabled ? fault.OnDelay ?? TimeSpan.Zero : null;
        Name = new(Kind.Word, probe.Id.Value);
        // The time of silence is the delay; the lifecycle adds none.
        Settings = context.Settings.For(Kind.Word) with { OnDelay = TimeSpan.Zero };
        Rationale = _probe.Rationale("The probe, its cable, its instrument, its bus or the power has failed.");
    }

    public static AlarmKind Kind { get; } = new("probe-silent", AlarmRuleSettings.Guard(null, null, "0:00:30", "0:10:00"))
    {
        RulesFor = context => context.Vat.Probes.Select(probe => new ProbeSilentAlarm(context, probe)),
    };

    public AlarmName Name { get; }

    public AlarmRuleSettings Settings { get; }

    public AlarmRationale Rationale { get; }

    public bool DependsOn(ProbeEvidence probe) => probe.Definition.Id == _probe.Definition.Id;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var probe = _probe.In(evidence);
        var now = evidence.Now.Monotonic;
        var isBusLost = evidence.IsBusLost(_probe.Definition.Bus);
        _busBack = isBusLost ? now : _busBack;
        var silence = now - TimeMath.Max(probe.ValueAt, TimeMath.Max(_busBack, evidence.Resumed));
        var signal = isBusLost ? AlarmSignal.Unknown : silence >= probe.SilentAfter ? AlarmSignal.Met : AlarmSignal.Clear;
        return new(signal, _probe.Priority(Settings, probe, evidence))
        {
            Value = (now - probe.ValueAt).TotalSeconds,
            Limit = probe.SilentAfter.TotalSeconds,
            Unit = "s",
            Suppressed = now - probe.FaultSince >= _faultTakesOver && probe.Answers(now),
            Note = probe.Newest is { Quality: Quality.Missing, Reason: { } reason } ? new($" ({Sentence.Told(GuardedProbe.Clause(reason))})") : null,
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands) => finding.Signal == AlarmSignal.Met || (finding.Signal == AlarmSignal.Unknown && stands)
        ? new($"No reading from {_probe.Called} for {DisplayUnits.Duration(TimeSpan.FromSeconds(finding.Value ?? 0))}{finding.Note}.")
        : new($"Readings from {_probe.Called} {(stands ? "are coming again and are watched until they stay" : "are coming")}.");
}
