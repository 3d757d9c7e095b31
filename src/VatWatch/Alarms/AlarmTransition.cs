namespace VatWatch.Alarms;

/// <summary>One step of the lifecycle; a reminder has the same state before and after.</summary>
/// <param name="Before">State it left.</param>
/// <param name="After">State it entered.</param>
/// <param name="Announce">Whether the dyer's phone is told.</param>
internal readonly record struct AlarmTransition(AlarmState Before, AlarmState After, bool Announce)
{
    /// <summary>Told again only because nobody has acknowledged it, with nothing new to say.</summary>
    public bool IsReminder { get; init; }
}
