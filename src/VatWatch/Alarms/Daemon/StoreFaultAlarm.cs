using VatWatch.Alarms.Rules;
using VatWatch.Store;

namespace VatWatch.Alarms.Daemon;

/// <summary><c>store-fault</c>: the disk does not take readings, or has lost some.</summary>
internal static class StoreFaultAlarm
{
    public static AlarmKind Kind { get; } = new("store-fault", AlarmRuleSettings.Of(AlarmPriority.High, "0:00:00", "0:01:00", "0:30:00"))
    {
        Rationale = new(
            "The disk or memory card is full, worn out or read-only.",
            "Readings of this night are not kept, and alarms may be forgotten at a power cut.",
            "Alarms still work. Free space on the disk or replace the card before the next session.",
            "hours"),
    };

    /// <summary>What the store says; readings that were lost are told even when the disk is well again.</summary>
    /// <param name="health">The store's health now.</param>
    /// <param name="lost">Readings lost since the start.</param>
    /// <param name="lostLately">Whether some were lost so lately that it is still a trouble.</param>
    public static DaemonSignal Signal(StoreHealth health, long lost, bool lostLately)
    {
        var words = lost > 0 ? $" {lost} were lost since the start, because the memory for those that wait was full." : "";
        return health switch
        {
            { Ok: false } => Of(true, $"Readings cannot be written to the disk: {health.Reason?.TrimEnd('.')}. {health.Buffered} wait in memory.{words}"),
            { Quarantined: { } sentence } => Of(true, sentence),
            { Unreadable: { } rows } => Of(true, rows),
            _ when lostLately => Of(true, $"Readings are written to the disk again, but not all:{words}"),
            _ => Of(false, $"Readings are written to the disk again.{words}"),
        };
    }

    private static DaemonSignal Of(bool isTrouble, string sentence) => new(new(Kind.Word), isTrouble, sentence);
}
