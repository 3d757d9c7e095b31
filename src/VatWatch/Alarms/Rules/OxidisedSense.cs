using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules;

/// <summary>
/// Whether a vat is known to be oxidised, so that weaker and rising say nothing new. A potential that trembles about the mark must not suppress and release
/// an alarm with every reading, so it has come back only by the deadband of <c>oxidised</c>. Not thread safe.
/// </summary>
internal sealed class OxidisedSense(RuleContext context, OrpLimits limits)
{
    private readonly Deadband _deadband = new(context.Settings.For(AlarmNames.Oxidised).Deadband);
    private AlarmSignal _before;

    /// <summary>Takes in the newest condition.</summary>
    public bool Evaluate(VatCondition? condition)
    {
        if (condition?.OrpMillivolts is { } millivolts)
        {
            _before = _deadband.AtOrAbove(millivolts, limits.OxidisedMillivolts, _before);
        }

        return condition?.State == VatState.Oxidised || _before == AlarmSignal.Met;
    }
}
