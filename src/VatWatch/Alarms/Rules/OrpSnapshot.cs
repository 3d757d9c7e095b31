using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules;

/// <summary>What the alarms of reduction ask of a condition before they judge it.</summary>
internal static class OrpSnapshot
{
    /// <summary>Whether the liquor is below its band: thresholds of ORP are for a warm vat, and a cold one reduces slowly or not at all.</summary>
    public static bool IsCold(VatDefinition vat, VatCondition condition) =>
        condition.State is VatState.Warming or VatState.TooCold
        || (condition.State == VatState.Unknown && condition.TemperatureC < vat.Temperature.LowC);

    /// <summary>For example "ORP -640 mV, limit -660 mV".</summary>
    public static string Numbers(RuleContext context, in AlarmFinding finding) => finding is { Value: { } value, Limit: { } limit }
        ? $"ORP {context.Units.Value(Quantity.Orp, value)}, limit {context.Units.Value(Quantity.Orp, limit)}"
        : "";

    /// <summary>A telling with its numbers in whole millivolts, which is finer than any ORP electrode is true.</summary>
    public static AlarmMessage Message(in AlarmFinding finding, string text) => new(text)
    {
        Value = finding.Value is { } value ? Math.Round(value) : null,
        Limit = finding.Limit,
        Unit = "mV",
    };
}
