using VatWatch.Alarms;

namespace VatWatch.Daemon.Web.Alarms.History;

/// <summary>A line of the log, with the lines after it in which the same alarm was only told again.</summary>
/// <param name="Newest">The newest of them, with the newest words.</param>
/// <param name="Times">How many lines these are.</param>
public sealed record JournalGroup(AlarmChange Newest, Stamp First, int Times)
{
    /// <summary>Puts together what was told again.</summary>
    /// <param name="lines">Lines of the log, newest first.</param>
    public static IReadOnlyList<JournalGroup> Of(IReadOnlyList<AlarmChange> lines)
    {
        var groups = new List<JournalGroup>();
        var open = new Dictionary<(VatId, AlarmName), int>();
        foreach (var line in lines)
        {
            var alarm = (line.Status.Vat, line.Status.Alarm);
            if (open.TryGetValue(alarm, out var at) && Belongs(line, groups[at]))
            {
                groups[at] = groups[at] with { First = line.Stamp, Times = groups[at].Times + 1 };
            }
            else
            {
                at = groups.Count;
                groups.Add(new(line, line.Stamp, 1));
            }

            if (IsToldAgain(line))
            {
                open[alarm] = at;
            }
            else
            {
                open.Remove(alarm);
            }
        }

        return groups;
    }

    private static bool Belongs(AlarmChange line, JournalGroup group) =>
        line is { By: null, Note: null } && line.Status.State == group.Newest.Status.State && line.Status.Priority == group.Newest.Status.Priority;

    private static bool IsToldAgain(AlarmChange line) => line is { By: null, Note: null } && line.Before == line.Status.State;
}
