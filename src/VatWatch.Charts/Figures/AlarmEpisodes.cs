using VatWatch.Alarms;

namespace VatWatch.Charts.Figures;

/// <summary>Puts the lines of the alarm journal together to <see cref="AlarmEpisode"/>s.</summary>
public static class AlarmEpisodes
{
    /// <summary>The episodes in order of entering. <paramref name="changes"/> are in order of time.</summary>
    public static IReadOnlyList<AlarmEpisode> Of(IReadOnlyList<AlarmChange> changes)
    {
        var done = new List<AlarmEpisode>();
        var open = new Dictionary<(VatId, AlarmName), AlarmEpisode>();
        foreach (var change in changes.Where(change => change.Note is null))
        {
            var key = (change.Status.Vat, change.Status.Alarm);
            var episode = open.GetValueOrDefault(key);
            if (episode is null && (change.Status.IsActive || WasActive(change.Before)))
                episode = Enter(change);
            if (episode is null)
                continue;
            if (Returns(change, episode))
            {
                done.Add(episode);
                episode = Enter(change);
            }

            episode = Follow(episode, change);
            if (change.Status.IsActive)
                open[key] = episode;
            else
            {
                done.Add(episode);
                open.Remove(key);
            }
        }

        return [.. done.Concat(open.Values).OrderBy(episode => episode.Entered.Utc)];
    }

    private static bool WasActive(AlarmState state) =>
        state is AlarmState.Unacknowledged or AlarmState.Acknowledged or AlarmState.ReturnedUnacknowledged or AlarmState.Latched;

    private static bool IsStanding(AlarmState state) => state is AlarmState.Unacknowledged or AlarmState.Acknowledged;

    // The condition came back before anybody had acknowledged that it had been there and gone.
    private static bool Returns(AlarmChange change, AlarmEpisode episode) => episode.Returned is not null && IsStanding(change.Status.State);

    // A record may begin while the alarm stands; then its status still knows since when, unless this very change ended it.
    private static AlarmEpisode Enter(AlarmChange change) => new()
    {
        Vat = change.Status.Vat,
        Alarm = change.Status.Alarm,
        Priority = change.Status.Priority,
        Text = change.Status.Text,
        Entered = change.Status.IsActive ? change.Status.Since : change.Stamp,
    };

    private static AlarmEpisode Follow(AlarmEpisode episode, AlarmChange change)
    {
        var state = change.Status.State;
        if (change.Status.Priority > episode.Priority)
            episode = episode with { Priority = change.Status.Priority };
        if (episode.Acknowledged is null && IsAcknowledgement(change))
            episode = episode with { Acknowledged = change.Stamp, AcknowledgedBy = change.By ?? change.Status.AcknowledgedBy };
        return (episode.Returned, state) switch
        {
            (null, AlarmState.Normal or AlarmState.ReturnedUnacknowledged or AlarmState.Latched) => episode with { Returned = change.Stamp },
            (null, AlarmState.Shelved or AlarmState.OutOfService or AlarmState.Suppressed) => episode with { SetAside = change.Stamp },
            _ => episode,
        };
    }

    private static bool IsAcknowledgement(AlarmChange change) => change.Status.State switch
    {
        AlarmState.Acknowledged => true,
        AlarmState.Normal => change.Before == AlarmState.ReturnedUnacknowledged,
        AlarmState.Latched => change.Before == AlarmState.Latched && change.Status.AcknowledgedBy is not null,
        _ => false,
    };
}
