namespace VatWatch.Alarms.Figures;

/// <summary>One alarm and how often.</summary>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm.</param>
/// <param name="Times">How often it entered, chattered, or stood too long.</param>
public sealed record AlarmTally(VatId Vat, AlarmName Alarm, int Times);
