namespace VatWatch.Alarms.Rules;

/// <summary>The rules that a vat's configuration calls for, weightiest first.</summary>
internal static class VatRules
{
    /// <summary>Every rule whose limits and probes the vat has.</summary>
    public static IEnumerable<IAlarmRule> For(RuleContext context) =>
    [
        new OverheatRule(context),
        new OverheatForecastRule(context),
        new HeatingFaultRule(context),
        .. OfReduction(context),
        .. OfAlkali(context),
        .. context.Settings.ReadyBy is { } readyBy ? [new ColdRule(context, readyBy)] : Array.Empty<IAlarmRule>(),
        .. OfProbes(context),
    ];

    private static IEnumerable<IAlarmRule> OfReduction(RuleContext context) => context.Vat.Orp is { } limits
        ? [new RedoxRisingRule(context, limits), new OxidisedRule(context, limits), new RedoxWeakRule(context, limits)]
        : [];

    private static IEnumerable<IAlarmRule> OfAlkali(RuleContext context) => context.Vat.Ph is { } band
        ? [new AlkaliLowRule(context, band), new AlkaliHighRule(context, band)]
        : [];

    private static IEnumerable<IAlarmRule> OfProbes(RuleContext context)
    {
        foreach (var probe in context.Vat.Probes)
        {
            yield return new ProbeSilentRule(context, probe);
            yield return new ProbeFaultRule(context, probe);
        }

        foreach (var kind in context.Vat.Probes.GroupBy(probe => probe.Quantity).Where(kind => kind.Count() > 1))
        {
            if (context.Settings.Disagreement.For(kind.Key) is { } limit)
            {
                yield return new ProbeDisagreesRule(context, kind.Key, limit);
            }
        }
    }
}
