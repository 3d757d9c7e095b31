namespace VatWatch.Alarms.Rules;

/// <summary>
/// The liquor is below its band in the hours in which it should be ready. Exists only when the configuration says by when; an untrusted
/// clock leaves the question open.
/// </summary>
internal sealed class ColdRule(RuleContext context, ReadyBy readyBy) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.Cold).Deadband);
    private readonly double _lowC = context.Vat.Temperature.LowC;
    private AlarmSignal _before;

    public AlarmName Name { get; } = new(AlarmNames.Cold);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.Cold);

    public AlarmRationale Rationale { get; } = new(
        "The heater started late, is weak or off, or the lid was left off.",
        "The session starts late, or starts in a vat too cold to dye well.",
        "Look at the heater's plug, its ground-fault switch and the lid. Unplug the heater before you reach into the liquor.",
        "hours");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var temperatureC = evidence.Condition?.TemperatureC;
        var signal = AlarmSignal.Unknown;
        if (evidence.Now.UtcTrusted && !readyBy.Covers(evidence.Now.Utc))
        {
            _before = signal = AlarmSignal.Clear;
        }
        else if (evidence.Now.UtcTrusted && temperatureC is { } value)
        {
            _before = signal = _deadband.Below(value, _lowC, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.Medium) { Value = temperatureC, Limit = _lowC };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands) => new(Sentence(finding, stands))
    {
        Value = context.ShownTemperature(finding.Value),
        Limit = context.ShownTemperature(_lowC),
        Unit = context.Units.TemperatureUnit,
    };

    private string Sentence(in AlarmFinding finding, bool stands)
    {
        var vat = context.Vat.Name;
        var wanted = $"wanted {context.Units.Temperature(_lowC)} by {readyBy.Time.ToString("HH:mm")}";
        return (finding.Value, finding.Signal == AlarmSignal.Met || stands) switch
        {
            (null, _) => $"{vat} has no temperature to judge whether it is ready, {wanted}.",
            ({ } value, true) => $"{vat} is not warm yet: {context.Units.Temperature(value)}, {wanted}.",
            ({ } value, false) => $"{vat} is at {context.Units.Temperature(value)}, {wanted}.",
        };
    }
}
