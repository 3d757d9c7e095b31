using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Reduction;

/// <summary>
/// <c>redox-weak</c>: ORP has stayed above the mark of a weak reduction. Suppressed while the liquor is below its band, while the vat rests after a
/// dip or an addition, and once it is oxidised: <see cref="OxidisedAlarm"/> then says more.
/// </summary>
internal static class RedoxWeakAlarm
{
    public static AlarmKind Kind { get; } = new("redox-weak", OrpWords.Defaults)
    {
        DeadbandIn = QuantityKind.Potential,
        DeadbandMost = 100,
        RulesFor = context => context.Vat.Orp is { } limits ? [Rule(context, limits)] : [],
    };

    private static LimitRule Rule(RuleContext context, OrpLimits limits)
    {
        var oxidised = new OxidisedSense(context, limits);
        return new(context, Kind)
        {
            Rationale = new(
                "The reducing agent is nearly used up, by the dips or by air.",
                "Dips come out pale and uneven, and the vat goes on to oxidise.",
                "Let the vat rest covered; sharpen it in small portions as the dosing page works out, and dip a test skein before you go on.",
                "1 to 3 h"),
            Limit = limits.WeakMillivolts,
            Unit = "mV",
            Value = condition => condition.OrpMillivolts,
            IsSuppressed = condition => oxidised.Evaluate(condition) || condition.State == VatState.Resting || OrpWords.IsCold(context.Vat, condition),
            Words = (orp, telling, _) => OrpWords.Tell(context.Vat.Name, orp, limits.WeakMillivolts, telling, "weak in reduction", "well reduced"),
        };
    }
}
