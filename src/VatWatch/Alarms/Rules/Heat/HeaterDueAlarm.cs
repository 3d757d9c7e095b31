using VatWatch.Plans.Warm;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>heater-due</c>: by a kept plan somebody is to switch the heater on now, and nobody has entered it. It stands until the heater is on, the plan is put off,
/// or the time has gone by.
/// </summary>
internal sealed class HeaterDueAlarm(RuleContext context) : IAlarmRule
{
    private HeaterDue? _due;
    private bool _isOn;

    public static AlarmKind Kind { get; } = new("heater-due", AlarmRuleSettings.Of(AlarmPriority.Medium, "0:00:00", "0:00:00", "0:10:00"))
    {
        RulesFor = context => [new HeaterDueAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(Kind.Word);

    public AlarmRationale Rationale { get; } = new(
        "A plan that somebody keeps says that the warm-up must begin now.",
        "The vat is not warm when work should begin.",
        "Go through the list of the night on the page Plan, switch the heater on and enter it; or put the plan off there.",
        "until the latest safe start has gone by");

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        _due = evidence.HeaterDue ?? _due;
        _isOn = evidence.Condition is { } seen && (seen.WarmUp is not null || seen.Heat?.HeaterOn == true);
        return new(Judge(evidence), Settings.Priority ?? AlarmPriority.Medium)
        {
            Value = _due is { } due ? (due.Ready - evidence.Now.Utc).TotalMinutes : null,
            Unit = "min",
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands)
    {
        var vat = context.Vat.Name;
        if (_due is not { } due)
        {
            return new($"The heater of {vat} is not awaited.");
        }

        if (finding.Signal != AlarmSignal.Met && !stands)
        {
            return _isOn ? new($"The heater of {vat} is on.") : new($"The heater of {vat} is no longer awaited.");
        }

        Sentence wish = new($"{due.TargetC:°C} by {Clock(due.Ready)}");
        return due.Late is { } late
            ? new($"Switch on the heater of {vat} now: {wish} was wished for, and it will be about {Clock(late)}.")
            : new($"Switch on the heater of {vat} now, for {wish}.");
    }

    private static AlarmSignal Judge(VatEvidence evidence)
    {
        if (evidence.HeaterDue is not { } due)
        {
            return AlarmSignal.Clear;
        }

        if (!evidence.Now.UtcTrusted)
        {
            return AlarmSignal.Unknown;
        }

        var isWarmOrWarming = evidence.Condition is { } seen && (seen.WarmUp is not null || seen.Heat?.HeaterOn == true || seen.TemperatureC >= due.TargetC);
        return !isWarmOrWarming && evidence.Now.Utc >= due.SwitchOn ? AlarmSignal.Met : AlarmSignal.Clear;
    }

    private string Clock(DateTimeOffset at) => TimeZoneInfo.ConvertTime(at, context.Settings.Zone).ToString("HH:mm");
}
