using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Tests.Notifications;

/// <summary>How one channel's queue stands in the store: what waits, what was dropped, and what is known of the oldest that waits.</summary>
internal sealed record OutboxState(int Waiting, long Dropped, DateTimeOffset? OldestCreated, int Attempts, string? LastFailure)
{
    public static OutboxState Of(StoreReader reader, string channel)
    {
        var waiting = reader.Sql.Query(
            "SELECT created, attempts, failure FROM outbox WHERE channel = $channel AND delivered IS NULL ORDER BY id",
            row => (Created: StoredTime.Utc(row.GetInt64(0)), Attempts: row.GetInt32(1), Failure: row.IsDBNull(2) ? null : row.GetString(2)),
            ("$channel", channel));
        var dropped = reader.Sql.Whole("SELECT count FROM outbox_dropped WHERE channel = $channel", ("$channel", channel)) ?? 0;
        return waiting is [var oldest, ..] ? new(waiting.Count, dropped, oldest.Created, oldest.Attempts, oldest.Failure) : new(0, dropped, null, 0, null);
    }
}
