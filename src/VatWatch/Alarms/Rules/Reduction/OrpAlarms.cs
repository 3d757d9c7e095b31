using VatWatch.Conditions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Alarms.Rules.Reduction;

/// <summary>What the alarms of reduction share.</summary>
internal static class OrpAlarms
{
    private const double WidestDeadband = 100;

    /// <summary>A kind of alarm about the potential, of each vat that has limits for it; its rule is told whether the vat is known to be oxidised.</summary>
    public static AlarmKind Kind(string word, AlarmRuleSettings defaults, QuantityKind deadbandIn, Func<RuleContext, OrpLimits, OxidisedLatch, LimitRule> rule) => new(word, defaults)
    {
        DeadbandIn = deadbandIn,
        DeadbandMost = WidestDeadband,
        RulesFor = context => context.Vat.Orp is { } limits ? [rule(context, limits, new OxidisedLatch(context, limits))] : [],
    };

    /// <summary>A composition past its limit for a quarter of an hour.</summary>
    public static AlarmRuleSettings Defaults { get; } = AlarmRuleSettings.Of(AlarmPriority.High, "0:15:00", "0:05:00", "0:30:00", deadband: 10);

    /// <summary>Whether the potential may have crept up by the electrode's own doing.</summary>
    public static bool MayBeDrift(VatCondition condition)
    {
        for (var i = 0; i < condition.Diagnoses.Count; i++)
        {
            if (condition.Diagnoses[i].Kind == DiagnosisKind.ElectrodeDrift)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether the liquor is below its band: thresholds of ORP are for a warm vat, and a cold one reduces slowly or not at all. Null while its temperature is not known.</summary>
    public static bool? IsCold(VatDefinition vat, VatCondition condition) =>
        condition.State != VatState.Unknown ? condition.State is VatState.Warming or VatState.TooCold : condition.TemperatureC is { } liquorC ? liquorC < vat.Temperature.LowC : null;

    /// <summary>The sentence; <paramref name="trouble"/> and <paramref name="well"/> are what the vat is.</summary>
    public static Sentence Tell(string vat, double? millivolts, double limit, AlarmTelling telling, string trouble, string well) => (millivolts, telling) switch
    {
        (null, AlarmTelling.Well) => new($"{vat} has no ORP to judge."),
        (null, _) => new($"{vat} was {trouble}, and its ORP cannot be read now."),
        ({ } value, _) => new($"{vat} is {(telling == AlarmTelling.Well ? well : trouble)}: ORP {value:mV}, limit {limit:mV}."),
    };
}
