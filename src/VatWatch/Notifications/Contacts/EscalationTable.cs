using VatWatch.Store;

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
        "SELECT vat, alarm, opened, due, told, repeats FROM contact_call WHERE contact = $contact ORDER BY vat, alarm",
        row => new StoredEscalation(
            new(row.GetString(0)),
            new(row.GetString(1)),
            StoredTime.Utc(row.GetInt64(2)),
            row.IsDBNull(3) ? null : StoredTime.Utc(row.GetInt64(3)),
            row.GetInt64(4) != 0,
            row.GetInt32(5)),
        ("$contact", contact)));
}
