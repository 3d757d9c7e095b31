using VatWatch.Alarms.Lifecycle;
using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Reduction;

/// <summary><c>oxidised</c>: ORP has stayed above the mark of an oxidised vat. Suppressed while the liquor is below its band, where the mark does not hold; while
/// it recovers from a dip, where <c>redox-weak</c> speaks first; and while the rise may be the electrode's own.</summary>
internal static class OxidisedAlarm
{
    public static AlarmKind Kind { get; } = OrpAlarms.Kind("oxidised", OrpAlarms.Defaults, QuantityKind.Potential, Rule);

    private static LimitRule Rule(RuleContext context, OrpLimits limits, OxidisedLatch _) => new(context, Kind)
    {
        Rationale = new(
            "Air got in, or the reducing agent ran out.",
            "Yarn dipped now takes dye that washes out again.",
            "Do not dip. Air the room, do not lean over the vat; with it warm, sharpen it in small portions as the dosing page works out, and try a test skein when it has turned.",
            "before the next dip"),
        Limit = limits.OxidisedMillivolts,
        Unit = "mV",
        Value = condition => condition.OrpMillivolts,
        IsSuppressed = condition => condition.State == VatState.Resting || OrpAlarms.MayBeDrift(condition) ? true : OrpAlarms.IsCold(context.Vat, condition),
        Words = (orp, telling, _) => OrpAlarms.Tell(context.Vat.Name, orp, limits.OxidisedMillivolts, telling, "oxidised", "not oxidised"),
    };
}

/// <summary>
/// Whether a vat is known to be oxidised, so that weaker and rising say nothing new. A potential that trembles about the mark must not suppress and release
/// an alarm with every reading, so it has come back only by the deadband of <c>oxidised</c>. Not thread safe.
/// </summary>
internal sealed class OxidisedLatch(RuleContext context, OrpLimits limits)
{
    private readonly Deadband _deadband = new(context.Settings.For(OxidisedAlarm.Kind.Word).Deadband);
    private AlarmSignal _before;

    /// <summary>Takes in the newest condition.</summary>
    public bool Evaluate(VatCondition condition)
    {
        if (condition.OrpMillivolts is { } millivolts)
        {
            _before = _deadband.AtOrAbove(millivolts, limits.OxidisedMillivolts, _before);
        }

        return condition.State == VatState.Oxidised || _before == AlarmSignal.Met;
    }
}
