using VatWatch.Alarms;

namespace VatWatch.Notifications.Contacts;

/// <summary>One active alarm in a <see cref="EscalationPolicy"/>: whether its contact was notified, and when that is due (again). Not thread safe.</summary>
internal sealed class Escalation(AlarmStatus status, Stamp opened)
{
    /// <summary>The alarm as it stands.</summary>
    public AlarmStatus Status { get; set; } = status;

    /// <summary>When it last became unacknowledged.</summary>
    public Stamp Opened { get; } = opened;

    /// <summary>When the contact is to be notified, by the monotonic clock; null for not until something changes.</summary>
    public TimeSpan? Due { get; set; }

    /// <summary>Whether the contact was notified.</summary>
    public bool Notified { get; set; }

    /// <summary>How often the contact was notified again.</summary>
    public int Repeats { get; set; }

    /// <summary>As it is kept on disk.</summary>
    public StoredEscalation Stored => new(Status.Vat, Status.Alarm, Opened.Utc, Due is { } due ? Opened.Utc + (due - Opened.Monotonic) : null, Notified, Repeats);
}

/// <summary>One alarm as a contact is to be notified of it; a row of <c>contact_call</c>.</summary>
/// <param name="Opened">When it last became unacknowledged, UTC.</param>
/// <param name="Due">When the contact is to be notified next, UTC; null for not until something changes.</param>
/// <param name="Notified">Whether the contact was notified since.</param>
/// <param name="Repeats">How often the contact was notified again.</param>
public sealed record StoredEscalation(VatId Vat, AlarmName Alarm, DateTimeOffset Opened, DateTimeOffset? Due, bool Notified, int Repeats);
