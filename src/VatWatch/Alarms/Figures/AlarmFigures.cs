namespace VatWatch.Alarms.Figures;

/// <summary>
/// Works out the performance measures from the journal. Pure. Durations go by the UTC labels, because monotonic times of different runs
/// do not compare; a label that lies before an earlier one counts as the same moment.
/// </summary>
public static class AlarmFigures
{
    private const int MostListed = 10;
    private const int ChatterEntries = 3;
    private static readonly TimeSpan Peak = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan ChatterWithin = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan StaleAfter = TimeSpan.FromHours(24);

    /// <summary>The figures of one stretch.</summary>
    /// <param name="opening">The last change of each alarm before <paramref name="from"/>.</param>
    /// <param name="changes">Every change from <paramref name="from"/> to <paramref name="to"/>, in order.</param>
    /// <param name="from">Start, UTC.</param>
    /// <param name="to">End, UTC, after the start; the present, when the stretch is not over.</param>
    public static AlarmWeek Of(IReadOnlyList<AlarmChange> opening, IReadOnlyList<AlarmChange> changes, DateTimeOffset from, DateTimeOffset to)
    {
        var entries = changes.Where(IsEntry).ToList();
        var times = entries.ConvertAll(change => change.Stamp.Utc);
        var stories = opening.Concat(changes).Where(change => change.Note is null).ToLookup(change => (change.Status.Vat, change.Status.Alarm));
        var waits = stories.SelectMany(story => Waits(story, from)).ToList();
        var answered = waits.OfType<TimeSpan>().Order().ToList();
        return new(
            from,
            to,
            entries.Count,
            entries.Count / Math.Max((to - from).TotalDays, TimeSpan.FromHours(1).TotalDays),
            MostWithin(times, Peak),
            Tally(Grouped(entries).Select(alarm => (alarm.Key, Chatters([.. alarm.Select(change => change.Stamp.Utc)])))),
            Tally(stories.Select(story => (story.Key, StaleTimes(story, to)))),
            answered.Count == 0 ? null : Median(answered),
            answered.Count == 0 ? null : answered[^1],
            waits.Count(wait => wait is null),
            [.. Tally(Grouped(entries).Select(alarm => (alarm.Key, alarm.Count()))).Take(MostListed)]);
    }

    /// <summary>Whether the dyer was called: the alarm came to stand, also when it was shelved at once for chattering.</summary>
    private static bool IsEntry(AlarmChange change) => change.Note is null && change.Announce && (change.Status.State, change.Before) switch
    {
        (AlarmState.Unacknowledged, not (AlarmState.Unacknowledged or AlarmState.Acknowledged)) => true,
        (AlarmState.Shelved, not AlarmState.Shelved) => change.By is null,
        _ => false,
    };

    private static bool IsAcknowledgement(AlarmChange change) => change.By is not null && (change.Before, change.Status.State) is
        (AlarmState.Unacknowledged, AlarmState.Acknowledged) or (AlarmState.ReturnedUnacknowledged, AlarmState.Normal) or (AlarmState.Latched, AlarmState.Latched);

    /// <summary>One wait for each time the alarm entered in the stretch: how long until it was acknowledged, null when it never was.</summary>
    private static List<TimeSpan?> Waits(IEnumerable<AlarmChange> story, DateTimeOffset from)
    {
        var waits = new List<TimeSpan?>();
        DateTimeOffset? entered = null;
        foreach (var change in story)
        {
            if (IsEntry(change) && change.Status.State == AlarmState.Unacknowledged && change.Stamp.Utc >= from)
            {
                // One that came again before anybody saw it has waited since the first time.
                entered ??= change.Stamp.Utc;
            }
            else if (entered is { } since && IsAcknowledgement(change))
            {
                waits.Add(AtLeastNothing(change.Stamp.Utc - since));
                entered = null;
            }
            else if (change.Status.State is AlarmState.Shelved or AlarmState.OutOfService or AlarmState.Suppressed)
            {
                entered = null;
            }
        }

        if (entered is not null)
        {
            waits.Add(null);
        }

        return waits;
    }

    /// <summary>How often the alarm stood for more than 24 h without a break.</summary>
    private static int StaleTimes(IEnumerable<AlarmChange> story, DateTimeOffset to)
    {
        var times = 0;
        DateTimeOffset? standing = null;
        foreach (var change in story)
        {
            var stands = change.Status.State is AlarmState.Unacknowledged or AlarmState.Acknowledged;
            if (!stands && standing is { } since)
            {
                times += change.Stamp.Utc - since > StaleAfter ? 1 : 0;
            }

            // The opening change may be a reminder: since when it has stood is in the alarm's own record.
            standing = stands ? standing ?? change.Status.Since.Utc : null;
        }

        return times + (standing is { } still && to - still > StaleAfter ? 1 : 0);
    }

    private static int Chatters(List<DateTimeOffset> times)
    {
        var chatters = 0;
        for (var i = 0; i + ChatterEntries <= times.Count; i++)
        {
            if (times[i + ChatterEntries - 1] - times[i] <= ChatterWithin)
            {
                chatters++;
                i += ChatterEntries - 1;
            }
        }

        return chatters;
    }

    private static int MostWithin(List<DateTimeOffset> times, TimeSpan window)
    {
        var (most, first) = (0, 0);
        for (var last = 0; last < times.Count; last++)
        {
            while (times[last] - times[first] >= window)
            {
                first++;
            }

            most = Math.Max(most, last - first + 1);
        }

        return most;
    }

    private static IEnumerable<IGrouping<(VatId Vat, AlarmName Alarm), AlarmChange>> Grouped(IEnumerable<AlarmChange> changes) =>
        changes.GroupBy(change => (change.Status.Vat, change.Status.Alarm));

    private static IReadOnlyList<AlarmTally> Tally(IEnumerable<((VatId Vat, AlarmName Alarm) Key, int Times)> counted) =>
    [
        .. counted.Where(one => one.Times > 0)
            .OrderByDescending(one => one.Times).ThenBy(one => one.Key.Vat.Value, StringComparer.Ordinal).ThenBy(one => one.Key.Alarm.Value, StringComparer.Ordinal)
            .Select(one => new AlarmTally(one.Key.Vat, one.Key.Alarm, one.Times)),
    ];

    private static TimeSpan Median(List<TimeSpan> sorted) => (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;

    private static TimeSpan AtLeastNothing(TimeSpan time) => time > TimeSpan.Zero ? time : TimeSpan.Zero;
}
