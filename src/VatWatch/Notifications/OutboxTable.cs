using VatWatch.Alarms;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Notifications;

/// <summary>
/// Sentences on their way to people, one queue per channel (a way of telling: <c>mqtt</c>, <c>mail</c>, ...). They are in the store before anything is
/// sent and stay until they are delivered, so a stop, a crash or a dead network delays them and loses none.
/// </summary>
/// <remarks>
/// A queue is bounded by <see cref="Cap"/>. Past it the oldest sentence of the least priority goes, and is counted; one that matters more is
/// never given up for one that matters less.
/// </remarks>
public static class OutboxTable
{
    /// <summary>Sentences that may wait in one channel; at the flood limit of 10 in 10 min that is 16 hours of the worst night.</summary>
    public const int Cap = 1000;

    /// <summary>Adds a sentence to a channel's queue; a repeat only when no sentence about its alarm waits there, so that a dead way gathers no repeats.</summary>
    /// <returns>Its row; null for a repeat that is not wanted, or when the queue is full of what matters more and this one was dropped and counted.</returns>
    public static long? Add(StoreTransaction transaction, Notification note, string channel)
    {
        return note.IsRepeat && IsWaiting(transaction.Sql, note, channel)
            ? null
            : Add(transaction, note.Vat, note.Alarm, note.Priority, note.Created, note.Sentence, channel, note.Document);
    }

    /// <summary>Adds a sentence to a channel's queue.</summary>
    /// <returns>Its row; null when the queue is full of what matters more and this one was dropped and counted.</returns>
    public static long? Add(
        StoreTransaction transaction, VatId vat, AlarmName alarm, AlarmPriority priority, DateTimeOffset created, string sentence, string channel, string? document = null)
    {
        if (Waiting(transaction.Sql, channel) >= Cap && !MakeRoom(transaction.Sql, channel, Weight(priority)))
        {
            return null;
        }

        transaction.Sql.Execute(
            """
            INSERT INTO outbox (channel, vat, alarm, priority, weight, created, sentence, document)
            VALUES ($channel, $vat, $alarm, $priority, $weight, $created, $sentence, $document)
            """,
            ("$channel", channel),
            ("$vat", vat.Value),
            ("$alarm", alarm.Value),
            ("$priority", priority.Word()),
            ("$weight", Weight(priority)),
            ("$created", StoredTime.Of(created)),
            ("$sentence", sentence),
            ("$document", document));
        return transaction.Sql.Whole("SELECT last_insert_rowid()");
    }

    /// <summary>Up to <paramref name="max"/> sentences that wait in a channel, oldest first.</summary>
    public static IReadOnlyList<Notification> Pending(StoreReader reader, string channel, int max) => reader.Guard(() => Pending(reader.Sql, channel, max));

    /// <summary>The same, from inside the writer's transaction.</summary>
    public static IReadOnlyList<Notification> Pending(StoreTransaction transaction, string channel, int max) => Pending(transaction.Sql, channel, max);

    /// <summary>Takes a sentence out of its queue. The newest delivered ones are kept for a while, to be looked up.</summary>
    public static void MarkDelivered(StoreTransaction transaction, long id, DateTimeOffset at)
    {
        transaction.Sql.Execute("UPDATE outbox SET delivered = $at WHERE id = $id AND delivered IS NULL", ("$id", id), ("$at", StoredTime.Of(at)));
        transaction.Sql.Execute("DELETE FROM outbox WHERE id <= $last AND delivered IS NOT NULL", ("$last", id - DeliveredKept));
    }

    /// <summary>Counts an attempt that failed, and why; the sentence stays in its queue.</summary>
    public static void MarkFailed(StoreTransaction transaction, long id, string reason) => transaction.Sql.Execute(
        "UPDATE outbox SET attempts = attempts + 1, failure = $reason WHERE id = $id AND delivered IS NULL", ("$id", id), ("$reason", reason));

    /// <summary>Takes a sentence out of its queue that can never be delivered, and says why; kept like a delivered one, to be looked up.</summary>
    public static void MarkDeadLettered(StoreTransaction transaction, long id, string reason, DateTimeOffset at)
    {
        transaction.Sql.Execute("UPDATE outbox SET set_aside = 1 WHERE id = $id AND delivered IS NULL", ("$id", id));
        MarkFailed(transaction, id, reason);
        MarkDelivered(transaction, id, at);
    }

    /// <summary>Every sentence that is kept, in the order they were filed.</summary>
    internal static IReadOnlyList<Notification> All(StoreReader reader) => reader.Guard(() => reader.Sql.Query(
        "SELECT id, vat, alarm, priority, created, sentence, document FROM outbox ORDER BY id", Read));

    private static List<Notification> Pending(SqlSession sql, string channel, int max) => sql.Query(
        "SELECT id, vat, alarm, priority, created, sentence, document FROM outbox WHERE channel = $channel AND delivered IS NULL ORDER BY id LIMIT $max",
        Read,
        ("$channel", channel),
        ("$max", (long)max));

    private static Notification Read(StoreRow row) => new(
        row.GetInt64("id"),
        new(row.Name("vat")),
        new(row.Name("alarm")),
        EnumWord.Parse<AlarmPriority>(row.GetString("priority")),
        row.Moment("created"),
        row.GetString("sentence"))
    {
        Document = row.OptionalString("document"),
    };

    private static bool IsWaiting(SqlSession sql, Notification note, string channel) => sql.Whole(
        "SELECT 1 FROM outbox WHERE channel = $channel AND delivered IS NULL AND vat = $vat AND alarm = $alarm LIMIT 1",
        ("$channel", channel),
        ("$vat", note.Vat.Value),
        ("$alarm", note.Alarm.Value)) is not null;

    private static long Waiting(SqlSession sql, string channel) =>
        sql.Whole("SELECT count(*) FROM outbox WHERE channel = $channel AND delivered IS NULL", ("$channel", channel)) ?? 0;

    /// <summary>Drops the oldest of the least priority, unless everything matters more than what comes; either way one is lost and counted.</summary>
    private static bool MakeRoom(SqlSession sql, string channel, long weight)
    {
        var dropped = sql.Execute(
            """
            DELETE FROM outbox WHERE id = (
                SELECT id FROM outbox WHERE channel = $channel AND delivered IS NULL AND weight <= $weight ORDER BY weight, id LIMIT 1)
            """,
            ("$channel", channel),
            ("$weight", weight));
        sql.Execute(
            "INSERT INTO outbox_dropped (channel, count) VALUES ($channel, 1) ON CONFLICT (channel) DO UPDATE SET count = count + 1", ("$channel", channel));
        return dropped > 0;
    }

    private static long Weight(AlarmPriority priority) => priority switch
    {
        AlarmPriority.Low => 0,
        AlarmPriority.Medium => 1,
        AlarmPriority.High => 2,
        AlarmPriority.Critical => 3,
        _ => throw new ArgumentOutOfRangeException(nameof(priority), priority, "is not a priority"),
    };

    /// <summary>Rows kept behind the newest delivered one; about two months of ordinary nights.</summary>
    private const int DeliveredKept = 1000;
}
