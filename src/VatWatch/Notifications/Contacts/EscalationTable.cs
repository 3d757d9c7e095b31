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
        new(row.GetString("vat")), new(row.GetString("alarm")), row.Moment("opened"), row.OptionalMoment("due"), row.Flag("told"), row.GetInt32(5));

    private const string Columns = "vat, alarm, opened, due, told, repeats";
}
