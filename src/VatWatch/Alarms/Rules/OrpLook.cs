using VatWatch.Conditions;
using VatWatch.Vats;

namespace VatWatch.Alarms.Rules;

/// <summary>What the alarms of reduction ask of a condition before they judge it.</summary>
internal static class OrpLook
{
    /// <summary>Whether the vat is known to be oxidised, so that weaker and rising say nothing new.</summary>
    public static bool IsOxidised(VatDefinition vat, VatCondition condition) =>
        condition.State == VatState.Oxidised || (vat.Orp is { } limits && condition.OrpMillivolts > limits.OxidisedMillivolts);

    /// <summary>Whether the liquor is below its band: thresholds of ORP are for a warm vat, and a cold one reduces slowly or not at all.</summary>
    public static bool IsCold(VatDefinition vat, VatCondition condition) =>
        condition.State is VatState.Warming or VatState.TooCold || condition.TemperatureC < vat.Temperature.LowC;
}
