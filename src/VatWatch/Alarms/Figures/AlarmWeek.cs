namespace VatWatch.Alarms.Figures;

/// <summary>
/// How the alarms did in one stretch of time, usually a week, by the performance measures of IEC 62682 / ANSI/ISA-18.2. An alarm is counted when it
/// enters, or is told anew because it comes off the shelf; reminders are not counted.
/// </summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC; not included.</param>
/// <param name="Count">Alarms.</param>
/// <param name="PerDay">Alarms a day on average. The measures want under 150; for one vat well under 2 a session is fit (engineering judgement).</param>
/// <param name="PeakInTenMinutes">Most alarms in any 10 min. The measures want no more than 10.</param>
/// <param name="Chattering">Alarms that entered three times or more within a minute. The measures want none.</param>
/// <param name="Stale">Alarms that stood for more than 24 h without a break. The measures want fewer than 5 on any day.</param>
/// <param name="MedianToAcknowledge">Median time from entering to acknowledgement; null when none was acknowledged.</param>
/// <param name="LongestToAcknowledge">Longest of these; null when none was acknowledged.</param>
/// <param name="Unacknowledged">Alarms of the stretch that nobody had acknowledged when it ended.</param>
/// <param name="MostFrequent">The ten that came most often, most first.</param>
public sealed record AlarmWeek(
    DateTimeOffset From,
    DateTimeOffset To,
    int Count,
    double PerDay,
    int PeakInTenMinutes,
    IReadOnlyList<AlarmTally> Chattering,
    IReadOnlyList<AlarmTally> Stale,
    TimeSpan? MedianToAcknowledge,
    TimeSpan? LongestToAcknowledge,
    int Unacknowledged,
    IReadOnlyList<AlarmTally> MostFrequent);

/// <summary>One alarm and how often.</summary>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Times">How often it entered, chattered, or stood too long.</param>
public sealed record AlarmTally(VatId Vat, AlarmName Alarm, int Times);
