using VatWatch.Alarms;

namespace VatWatch.Notifications.Contacts;

/// <summary>One active alarm in a <see cref="EscalationPolicy"/>: whether its contact was told, and when that is due (again). Not thread safe.</summary>
internal sealed class Escalation(AlarmStatus status, Stamp opened)
{
    /// <summary>The alarm as it stands.</summary>
    public AlarmStatus Status { get; set; } = status;

    /// <summary>When it last became unacknowledged.</summary>
    public Stamp Opened { get; } = opened;

    /// <summary>When the contact is to be told, by the monotonic clock; null for not until something changes.</summary>
    public TimeSpan? Due { get; set; }

    /// <summary>Whether the contact was told.</summary>
    public bool Told { get; set; }

    /// <summary>How often the contact was told again.</summary>
    public int Repeats { get; set; }

    /// <summary>As it is kept on disk.</summary>
    public StoredEscalation Stored => new(Status.Vat, Status.Alarm, Opened.Utc, Due is { } due ? Opened.Utc + (due - Opened.Monotonic) : null, Told, Repeats);
}
