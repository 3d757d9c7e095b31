using VatWatch.Alarms.Figures;

namespace VatWatch.Daemon.Web.Api;

/// <summary>The figures of alarms in one stretch of seven days.</summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC.</param>
/// <param name="Count">Alarms that entered.</param>
/// <param name="PerDay">Of these a day.</param>
/// <param name="PeakInTenMinutes">Most of them in any 10 min.</param>
/// <param name="Chattering">Alarms that came three times or more within a minute.</param>
/// <param name="Stale">Alarms that stood for more than 24 h.</param>
/// <param name="MedianSecondsToAcknowledge">Median time to acknowledgement, s; null when none was acknowledged.</param>
/// <param name="LongestSecondsToAcknowledge">Longest of these, s.</param>
/// <param name="Unacknowledged">Alarms that nobody acknowledged.</param>
/// <param name="MostFrequent">The ten that came most often.</param>
internal sealed record AlarmWeekReply(
    DateTimeOffset From, DateTimeOffset To, int Count, double PerDay, int PeakInTenMinutes, IReadOnlyList<AlarmWeekReply.Tally> Chattering, IReadOnlyList<AlarmWeekReply.Tally> Stale,
    double? MedianSecondsToAcknowledge, double? LongestSecondsToAcknowledge, int Unacknowledged, IReadOnlyList<AlarmWeekReply.Tally> MostFrequent)
{
    internal static AlarmWeekReply Of(AlarmWeek week) => new(
        week.From,
        week.To,
        week.Count,
        Math.Round(week.PerDay, 2),
        week.PeakInTenMinutes,
        Tallies(week.Chattering),
        Tallies(week.Stale),
        week.MedianToAcknowledge?.TotalSeconds,
        week.LongestToAcknowledge?.TotalSeconds,
        week.Unacknowledged,
        Tallies(week.MostFrequent));

    private static IReadOnlyList<Tally> Tallies(IReadOnlyList<AlarmTally> tallies) => [.. tallies.Select(one => new Tally(one.Vat.Value, one.Alarm.Value, one.Times))];

    /// <summary>One alarm and how often.</summary>
    /// <param name="Vat">The vat, or "daemon".</param>
    /// <param name="Times">How often.</param>
    internal sealed record Tally(string Vat, string Alarm, int Times);
}
