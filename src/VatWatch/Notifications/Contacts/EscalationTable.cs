using VatWatch.Alarms;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Notifications.Contacts;

/// <summary>Keeps of what each contact is still to be notified, so that escalation and repeats go on after a restart.</summary>
internal static class EscalationTable
{
    /// <summary>Makes <paramref name="escalations"/> all that is kept for a contact.</summary>
    public static void Replace(StoreTransaction transaction, string contact, IReadOnlyList<StoredEscalation> escalations)
    {
        transaction.Sql.Execute("DELETE FROM contact_call WHERE contact = $contact", ("$contact", contact));
        foreach (var escalation in escalations)
        {
            transaction.Sql.Execute(
                """
                INSERT INTO contact_call (contact, vat, alarm, opened, due, told, repeats)
                VALUES ($contact, $vat, $alarm, $opened, $due, $told, $repeats)
                """,
                ("$contact", contact),
                ("$vat", escalation.Vat.Value),
                ("$alarm", escalation.Alarm.Value),
                ("$opened", StoredTime.Of(escalation.Opened)),
                ("$due", escalation.Due is { } due ? StoredTime.Of(due) : null),
                ("$told", escalation.Notified ? 1L : 0L),
                ("$repeats", (long)escalation.Repeats));
        }
    }

    /// <summary>What is kept for a contact.</summary>
    public static IReadOnlyList<StoredEscalation> Read(StoreReader reader, string contact) => reader.Guard(() => reader.Sql.Query(
        $"SELECT {Columns} FROM contact_call WHERE contact = $contact ORDER BY vat, alarm", Read, ("$contact", contact)));

    /// <summary>What is kept for every contact.</summary>
    public static IReadOnlyList<StoredEscalation> All(StoreReader reader) => reader.Guard(() => reader.Sql.Query($"SELECT {Columns} FROM contact_call", Read));

    private static StoredEscalation Read(StoreRow row) => new(
        new(row.Name("vat")), new(row.Name("alarm")), row.Moment("opened"), row.OptionalMoment("due"), row.Flag("told"), row.GetInt32("repeats"));

    private const string Columns = "vat, alarm, opened, due, told, repeats";
}

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
