namespace VatWatch.Alarms;

/// <summary>A change of an alarm with its number in the journal, which grows with every change and is never given twice.</summary>
public readonly record struct StoredAlarmChange(long Id, AlarmChange Change);
