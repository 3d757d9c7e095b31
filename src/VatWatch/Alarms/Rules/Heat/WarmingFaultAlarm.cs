using VatWatch.Conditions.Heating;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>warming-fault</c>: a warm-up was begun, by an entry of the log book or by a heater probe, and for <see cref="After"/> the liquor has risen by less
/// than half of the least that is plausible. Suppressed while <see cref="HeatingFaultAlarm"/> tells of it with power that is known to flow. Without a warm-up that was begun, nothing tells a probe in the air from a vat that is left alone.
/// </summary>
internal sealed class WarmingFaultAlarm(RuleContext context) : IAlarmRule
{
    /// <summary>Longer than an element and the sheath of a thermometer lag, and short beside the hours of a warm-up.</summary>
    public static readonly TimeSpan After = TimeSpan.FromMinutes(20);

    private WarmUp? _slow;
    private TimeSpan _slowFor;
    private bool _isUnderWay;

    /// <summary>The rise is judged over 15 min, so an off-delay that is longer outlives a stir or a dip in between.</summary>
    public static AlarmKind Kind { get; } = new("warming-fault", AlarmRuleSettings.Guard(AlarmPriority.High, "0:01:00", "0:20:00", "0:15:00"))
    {
        RulesFor = context => [new WarmingFaultAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(Kind.Word);

    public AlarmRationale Rationale { get; } = new(
        "The probe is not in the liquor, the heater is not on, a breaker has tripped, or the lid is off.",
        "A late session at best; at worst the vat boils while the probe shows the room, or an element burns dry.",
        "Take the vat for hot whatever the probe shows. Unplug the heater before you touch anything, then look at probe, level, plug, breaker and lid.",
        "minutes when the probe may hang in the air, hours otherwise");

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var warmUp = evidence.Condition?.WarmUp;
        _isUnderWay = warmUp is not null;
        if (warmUp is { SlowSince: { } since })
        {
            (_slow, _slowFor) = (warmUp, evidence.Now.Since(since));
        }

        return new(Judge(evidence, warmUp), Settings.Priority ?? AlarmPriority.High)
        {
            Value = (warmUp ?? _slow)?.RateKPerHour,
            Limit = (warmUp ?? _slow)?.LeastKPerHour,
            Unit = "K/h",
            Suppressed = HeatingFaultAlarm.TellsOf(evidence.Condition) && context.Settings.For(HeatingFaultAlarm.Kind.Word).Enabled,
            Action = _slow is { Causes: [WarmUpCause.ProbeNotInLiquor, ..] }
                ? "Unplug the heater now: the vat may be far hotter than shown. Stay back from steam, measure by hand, then hang the probe in the liquor."
                : null,
        };
    }

    /// <summary>A rise that is judged to be slow for a shorter time keeps what stands.</summary>
    private static AlarmSignal Judge(VatEvidence evidence, WarmUp? warmUp) => (evidence.Condition, warmUp) switch
    {
        (null, _) => AlarmSignal.Unknown,
        (_, null) => AlarmSignal.Clear,
        (_, { RiseK: null }) => AlarmSignal.Unknown,
        (_, { SlowSince: { } since }) => evidence.Now.Since(since) >= After ? AlarmSignal.Met : AlarmSignal.Unknown,
        _ => AlarmSignal.Clear,
    };

    public Sentence Tell(in AlarmFinding finding, bool stands) => _slow is { RateKPerHour: { } rate, LeastKPerHour: { } least } slow && (finding.Signal == AlarmSignal.Met || stands)
        ? new(
            $"{context.Vat.Name} does not warm up: {rate:K/h} for {DisplayUnits.Duration(_slowFor)}, at least {least:K/h} was to be expected. What fits: {string.Join("; ", slow.Causes.Select(Cause))}.")
        : _slow is null ? new($"{context.Vat.Name} shows no fault of warming up.")
        : _isUnderWay ? new($"{context.Vat.Name} warms up again as is to be expected.")
        : new($"{context.Vat.Name} is not being warmed up any more; this warm-up showed a fault.");

    private static string Cause(WarmUpCause cause) => cause switch
    {
        WarmUpCause.ProbeNotInLiquor => "the probe is not in the liquor",
        WarmUpCause.ProbeStopped => "the thermometer has stopped: it repeats one value",
        WarmUpCause.HeaterNotOn => "the heater is not on, or its thermostat is set too low",
        WarmUpCause.NoSupply => "a breaker or protective switch is open, or the element is dead",
        WarmUpCause.LidOffOrWeakHeater => "the lid is off, or the heater gives too little",
        _ => "the element is not covered by liquor",
    };
}
