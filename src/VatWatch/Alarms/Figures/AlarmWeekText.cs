namespace VatWatch.Alarms.Figures;

/// <summary>The figures of a week as rows for people: the measure, its value, and what is good.</summary>
public static class AlarmWeekText
{
    private const int Named = 5;

    /// <summary>The rows, in the order in which they are looked at.</summary>
    /// <param name="week">The figures.</param>
    /// <param name="nameOf">Name of a vat for people.</param>
    public static IReadOnlyList<(string Measure, string Value, string Wanted)> Rows(AlarmWeek week, Func<VatId, string> nameOf) =>
    [
        ("Alarms", $"{week.Count}, {week.PerDay:0.0} a day", "under 2 a session"),
        ("Most in 10 min", week.PeakInTenMinutes.ToString(), "10 or fewer"),
        ("Coming and going", List(week.Chattering, nameOf), "none"),
        ("Stood over 24 h", List(week.Stale, nameOf), "none"),
        ("Time to acknowledge", Times(week), "within the time to act"),
        ("Not acknowledged", week.Unacknowledged.ToString(), "none"),
        ("Most frequent", List(week.MostFrequent, nameOf), "a plan for each"),
    ];

    private static string Times(AlarmWeek week) => week is { MedianToAcknowledge: { } median, LongestToAcknowledge: { } longest }
        ? $"{DisplayUnits.Duration(median)} in the middle, {DisplayUnits.Duration(longest)} at most"
        : "none was acknowledged";

    private static string List(IReadOnlyList<AlarmTally> tallies, Func<VatId, string> nameOf)
    {
        var named = string.Join(", ", tallies.Take(Named).Select(one => $"{one.Alarm} of {nameOf(one.Vat)} ({one.Times})"));
        return tallies.Count == 0 ? "none" : tallies.Count > Named ? $"{named} and {tallies.Count - Named} more" : named;
    }
}
