using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules;

/// <summary>
/// ORP has stayed above the mark of a weak reduction. Suppressed while the liquor is below its band, while the vat rests after a dip or an
/// addition, and once it is oxidised: <see cref="OxidisedRule"/> then says more.
/// </summary>
internal sealed class RedoxWeakRule(RuleContext context, OrpLimits limits) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.RedoxWeak).Deadband);
    private readonly OxidisedSense _oxidised = new(context, limits);
    private AlarmSignal _before;

    public AlarmName Name { get; } = new(AlarmNames.RedoxWeak);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(AlarmNames.RedoxWeak);

    public AlarmRationale Rationale { get; } = new(
        "The reducing agent is nearly used up, by the dips or by air.",
        "Dips come out pale and uneven, and the vat goes on to oxidise.",
        "Let the vat rest covered; sharpen it in small portions as the dosing page works out, and dip a test skein before you go on.",
        "1 to 3 h");

    public bool DependsOn(ProbeEvidence probe) => false;

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        var condition = evidence.Condition;
        var isOxidised = _oxidised.Evaluate(condition);
        var signal = AlarmSignal.Unknown;
        if (condition?.OrpMillivolts is { } millivolts)
        {
            _before = signal = _deadband.AtOrAbove(millivolts, limits.WeakMillivolts, _before);
        }

        return new(signal, Settings.Priority ?? AlarmPriority.High)
        {
            Value = condition?.OrpMillivolts,
            Limit = limits.WeakMillivolts,
            Suppressed = condition is not null
                && (condition.State == VatState.Resting || OrpSnapshot.IsCold(context.Vat, condition) || isOxidised),
        };
    }

    public AlarmMessage Tell(in AlarmFinding finding, bool stands)
    {
        var numbers = OrpSnapshot.Numbers(context, finding);
        return OrpSnapshot.Message(finding, (finding.Value, finding.Signal == AlarmSignal.Met || stands) switch
        {
            (null, true) => $"{context.Vat.Name} was weak in reduction, and its ORP cannot be read now.",
            (null, _) => $"{context.Vat.Name} has no ORP to judge.",
            (_, true) => $"{context.Vat.Name} is weak in reduction: {numbers}.",
            _ => $"{context.Vat.Name} is well reduced: {numbers}.",
        });
    }
}
