using VatWatch.Store;

namespace VatWatch.Notifications.Contacts;

/// <summary>Keeps what each contact is still to be told, so that escalation and repeats go on after a restart.</summary>
internal static class EscalationTable
{
    /// <summary>Makes <paramref name="calls"/> all that is kept for a contact.</summary>
    public static void Replace(StoreTransaction transaction, string contact, IReadOnlyList<StoredEscalation> calls)
    {
        transaction.Sql.Execute("DELETE FROM contact_call WHERE contact = $contact", ("$contact", contact));
        foreach (var call in calls)
        {
            transaction.Sql.Execute(
                """
                INSERT INTO contact_call (contact, vat, alarm, opened, due, told, repeats)
                VALUES ($contact, $vat, $alarm, $opened, $due, $told, $repeats)
                """,
                ("$contact", contact),
                ("$vat", call.Vat.Value),
                ("$alarm", call.Alarm.Value),
                ("$opened", StoredTime.Of(call.Opened)),
                ("$due", call.Due is { } due ? StoredTime.Of(due) : null),
                ("$told", call.Told ? 1L : 0L),
                ("$repeats", (long)call.Repeats));
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
