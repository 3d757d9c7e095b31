using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Reduction;

/// <summary>
/// <c>redox-weak</c>: ORP has stayed above the mark of a weak reduction, or the vat comes back more slowly, or less, after each dip, which shows first.
/// Suppressed while the liquor is below its band and once it is oxidised (<see cref="OxidisedAlarm"/> then says more); and while the vat rests after a dip
/// or an addition, unless its recoveries are the sign.
/// </summary>
internal static class RedoxWeakAlarm
{
    public static AlarmKind Kind { get; } = OrpAlarms.Kind("redox-weak", OrpAlarms.Defaults, QuantityKind.Potential, Rule);

    /// <summary>A sound vat is back within its mark by then: reducing agents act within 20 to 60 min at 40 to 50 °C (indigo chemistry reference, common practice).</summary>
    private static readonly TimeSpan UsualRest = TimeSpan.FromMinutes(30);

    private static LimitRule Rule(RuleContext context, OrpLimits limits, OxidisedLatch oxidised) => new(context, Kind)
    {
        Rationale = new(
            "The reducing agent is nearly used up, by the dips or by air.",
            "Dips come out pale and uneven, and the vat goes on to oxidise.",
            "Let the vat rest covered; air the room, sharpen it in small portions as the dosing page works out, and dip a test skein before you go on.",
            "1 to 3 h"),
        Limit = limits.WeakMillivolts,
        Unit = "mV",
        Value = condition => condition.OrpMillivolts,
        IsMet = condition => RunningOut(condition) is not null,
        IsSuppressed = condition => (condition.RestingFor < UsualRest && RunningOut(condition) is null)
            || (oxidised.Evaluate(condition) && condition.State != VatState.Resting && !OrpAlarms.MayBeDrift(condition)) ? true : OrpAlarms.IsCold(context.Vat, condition),
        Words = (orp, telling, condition) => telling != AlarmTelling.Well && RunningOut(condition) is { } sign
            ? new($"{context.Vat.Name} is getting weak. {sign.Sentence}")
            : OrpAlarms.Tell(context.Vat.Name, orp, limits.WeakMillivolts, telling, "weak in reduction", "well reduced"),
    };

    // A loop by hand: this is asked at every condition, and allocates nothing.
    private static Diagnosis? RunningOut(VatCondition? condition)
    {
        for (var i = 0; i < condition?.Diagnoses.Count; i++)
        {
            if (condition.Diagnoses[i].Kind == DiagnosisKind.ReducerRunningOut)
            {
                return condition.Diagnoses[i];
            }
        }

        return null;
    }
}
