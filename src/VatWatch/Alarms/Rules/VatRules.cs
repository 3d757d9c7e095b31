
namespace VatWatch.Alarms.Rules;

/// <summary>The rules that a vat's configuration calls for, weightiest first.</summary>
internal static class VatRules
{
    /// <summary>Every rule whose limits and probes the vat has.</summary>
    public static IEnumerable<IAlarmRule> For(RuleContext context)
    {
        var vat = context.Vat;
        yield return new OverheatRule(context);
        if (vat.Orp is not null)
        {
            yield return new RedoxRisingRule(context);
        }

        foreach (var probe in vat.Probes)
        {
            yield return new ProbeSilentRule(context, probe);
            yield return new ProbeFaultRule(context, probe);
        }
    }
}
