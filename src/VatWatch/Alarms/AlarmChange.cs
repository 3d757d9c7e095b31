using VatWatch.Alarms.Acts;

namespace VatWatch.Alarms;

/// <summary>One transition of one alarm, or a note beside it: a line of the journal.</summary>
/// <param name="Status">The alarm after the change.</param>
/// <param name="By">Who, for an act of a person; null for the daemon's own.</param>
/// <param name="Announce">Whether the dyer's phone is told.</param>
public sealed record AlarmChange(AlarmState Before, AlarmStatus Status, Stamp Stamp, string? By, bool Announce)
{
    /// <summary>Told again only because nobody has acknowledged it, with nothing new to say; not kept in the journal.</summary>
    public bool IsReminder { get; init; }

    /// <summary>The way an act of a person came: <c>mqtt</c>, <c>page</c>, <c>api</c> or <c>verb</c>; null for the daemon's own.</summary>
    public string? Via { get; init; }

    /// <summary>What somebody wrote; null for a transition. A note changes nothing.</summary>
    public string? Note { get; init; }

    /// <summary>A note about a vat rather than about one of its alarms.</summary>
    public static AlarmChange NoteOf(AlarmAct act, Stamp now) => new(
        AlarmState.Normal,
        new() { Vat = act.Vat, Alarm = act.Alarm, State = AlarmState.Normal, Priority = AlarmPriority.Low, Since = now, Text = act.Text ?? "", Action = "" },
        now,
        act.By,
        Announce: false)
    {
        Via = act.Via,
        Note = act.Text,
    };
}

/// <summary>A change of an alarm with its number in the journal, which grows with every change and is never given twice.</summary>
public readonly record struct StoredAlarmChange(long Id, AlarmChange Change);
