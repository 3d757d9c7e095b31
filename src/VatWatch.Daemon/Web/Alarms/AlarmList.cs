using VatWatch.Alarms;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Alarms;

/// <summary>Alarms of every vat and of the daemon in one list.</summary>
internal static class AlarmList
{
    /// <summary>Every alarm that is not in normal: those in front of the dyer first, what is on before what is over, then by priority, newest first.</summary>
    public static IReadOnlyList<AlarmStatus> All(ILiveFeed feed) =>
    [
        .. feed.DaemonAlarms.Concat(feed.Vats.SelectMany(live => live.Alarms))
            .OrderByDescending(alarm => alarm.IsActive)
            .ThenByDescending(alarm => alarm.State is AlarmState.Unacknowledged or AlarmState.Acknowledged)
            .ThenByDescending(alarm => alarm.Priority)
            .ThenByDescending(alarm => alarm.Since.Monotonic),
    ];

    /// <summary>Whether a person is asked to say "seen".</summary>
    public static bool AwaitsAcknowledgement(this AlarmStatus alarm) =>
        alarm.State is AlarmState.Unacknowledged or AlarmState.ReturnedUnacknowledged or AlarmState.Latched;
}
