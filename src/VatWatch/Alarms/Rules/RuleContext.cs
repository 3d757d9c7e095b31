namespace VatWatch.Alarms.Rules;

/// <summary>What every rule of one vat is made from.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Settings">Settings of its alarms.</param>
internal sealed record RuleContext(VatDefinition Vat, AlarmSettings Settings);
