namespace VatWatch.Alarms.Rules;

/// <summary>ORP has stayed above the mark of an oxidised vat. Suppressed while the liquor is below its band, where the mark does not hold.</summary>
internal sealed class OxidisedRule(RuleContext context, OrpLimits limits) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.Oxidised).Deadband);
    private AlarmSignal _before;

    public AlarmName Name { get; } = new(AlarmNames.Oxidised);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.Oxidised);

    public AlarmRationale Rationale { get; } = new(
        "Air got in, or the reducing agent ran out.",
        "Yarn dipped now takes dye that washes out again.",
        "Do not dip. With the vat warm and covered, sharpen it in small portions as the dosing page works out, and try a test skein when it has turned.",
        "before the next dip");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var condition = evidence.Condition;
        var signal = AlarmSignal.Unknown;
        if (condition?.OrpMillivolts is { } millivolts)
        {
            _before = signal = _deadband.AtOrAbove(millivolts, limits.OxidisedMillivolts, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.High)
        {
            Value = condition?.OrpMillivolts,
            Limit = limits.OxidisedMillivolts,
            Suppressed = condition is not null && OrpSnapshot.IsCold(context.Vat, condition),
        };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands)
    {
        var numbers = OrpSnapshot.Numbers(context, finding);
        return OrpSnapshot.Message(finding, (finding.Value, finding.Signal == AlarmSignal.Met || stands) switch
        {
            (null, true) => $"{context.Vat.Name} was oxidised, and its ORP cannot be read now.",
            (null, _) => $"{context.Vat.Name} has no ORP to judge.",
            (_, true) => $"{context.Vat.Name} is oxidised: {numbers}.",
            _ => $"{context.Vat.Name} is not oxidised: {numbers}.",
        });
    }
}
