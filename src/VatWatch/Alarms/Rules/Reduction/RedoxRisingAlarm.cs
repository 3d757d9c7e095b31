using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Reduction;

/// <summary>
/// <c>redox-rising</c>: ORP rises faster than set: the reducer is going, or air is getting in. Suppressed while the vat rests after a dip or an addition,
/// while it stands cold and is not being warmed, and once it is oxidised anyway. It stays in force during the warm-up: a sound vat's ORP falls then.
/// </summary>
internal static class RedoxRisingAlarm
{
    public static AlarmKind Kind { get; } = OrpAlarms.Kind("redox-rising", AlarmRuleSettings.Of(AlarmPriority.High, "0:02:00", "0:15:00", "0:15:00", deadband: 5), QuantityKind.PotentialRate, Rule);

    private static LimitRule Rule(RuleContext context, OrpLimits limits, OxidisedLatch oxidised) => new(context, Kind)
    {
        Rationale = new(
            "Air is getting in (lid off, stirring, a splashing return), or the reducing agent is used up.",
            "The vat oxidises and the yarn dipped in it washes out.",
            "Close the lid, stop what stirs in air and let the vat rest. If it still rises, air the room and sharpen it in small portions as the dosing page works out.",
            "1 to 3 h before the vat turns"),
        Limit = limits.RisingMillivoltsPerHour,
        Unit = "mV/h",
        Value = condition => condition.OrpRateMillivoltsPerHour,
        IsSuppressed = condition => oxidised.Evaluate(condition) || condition.State is VatState.Resting or VatState.TooCold,
        Words = (rate, telling, condition) => Tell(context.Vat.Name, rate, limits.RisingMillivoltsPerHour, telling, condition),
    };

    private static Sentence Tell(string vat, double? rate, double limit, AlarmTelling telling, VatCondition? condition)
    {
        if (rate is not { } perHour)
        {
            return telling == AlarmTelling.Well ? new($"{vat} has no trend of ORP to judge.") : new($"{vat} was losing its reduction, and its ORP cannot be followed now.");
        }

        var what = telling == AlarmTelling.Well ? "holds its reduction" : "is losing its reduction";
        Sentence level = condition?.OrpMillivolts is { } now ? new Sentence($"; it is at {now:mV}") : "";
        return new($"{vat} {what}: ORP changes by {perHour:+0;-0;0} mV/h, limit {limit:+0} mV/h{level}.");
    }
}
