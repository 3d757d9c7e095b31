namespace VatWatch.Alarms;

/// <summary>What a part of the daemon says about itself.</summary>
/// <param name="Alarm">The alarm, for example <c>store-fault</c>, <c>bus-lost.bench</c> or <c>calibration-due.alkali</c>.</param>
/// <param name="Active">Whether the trouble is there; null when that cannot be told just now, which keeps what stands.</param>
/// <param name="Sentence">One plain sentence, fit for a lock screen, about the trouble or about its end.</param>
public sealed record DaemonSignal(AlarmName Alarm, bool? Active, string Sentence);
