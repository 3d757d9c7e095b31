namespace VatWatch.Alarms;

/// <summary>What the evidence says about an alarm's condition at one moment, before any delay.</summary>
internal enum AlarmSignal
{
    /// <summary>The evidence is missing or not good enough to say. Never reads as clear.</summary>
    Unknown,

    /// <summary>The condition is not met.</summary>
    Clear,

    /// <summary>The condition is met.</summary>
    Met,
}
