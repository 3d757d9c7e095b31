using VatWatch.Store.Sql;

namespace VatWatch.Store;

/// <summary>Keeps for each server how far it has taken the store, and the points it refused with its reason.</summary>
public static class ForwardTable
{
    /// <summary>Refused points that are kept for a server; past this the oldest goes.</summary>
    public const int MostRefused = 1000;

    /// <summary>Where a server stands; null when nothing was ever sent to it.</summary>
    public static ForwardPlace? Place(StoreReader reader, string server) => reader.Guard(() => reader.Sql.Query(
        "SELECT measurement, late, condition, alarm_change FROM forward_place WHERE server = $server",
        row => (ForwardPlace?)new ForwardPlace(new(row.GetInt64("measurement"), row.GetInt64("late")), row.GetInt64("condition"), row.GetInt64("alarm_change")),
        ("$server", server)).FirstOrDefault());

    /// <summary>Keeps where a server stands.</summary>
    public static void Save(StoreTransaction transaction, string server, ForwardPlace place) => transaction.Sql.Execute(
        "INSERT OR REPLACE INTO forward_place (server, measurement, late, condition, alarm_change) VALUES ($server, $key, $late, $condition, $alarm)",
        ("$server", server),
        ("$key", place.Readings.Key),
        ("$late", place.Readings.Late),
        ("$condition", place.Condition),
        ("$alarm", place.AlarmChange));

    public static void AddRefused(StoreTransaction transaction, string server, RefusedPoint point)
    {
        transaction.Sql.Execute(
            "INSERT INTO forward_aside (server, utc, reason, line) VALUES ($server, $utc, $reason, $line)",
            ("$server", server),
            ("$utc", StoredTime.Of(point.Utc)),
            ("$reason", point.Reason),
            ("$line", point.Line));
        transaction.Sql.Execute(
            "DELETE FROM forward_aside WHERE server = $server AND id <= (SELECT max(id) FROM forward_aside) - $most", ("$server", server), ("$most", (long)MostRefused));
    }

    /// <summary>Points that a server refused, oldest first.</summary>
    public static IReadOnlyList<RefusedPoint> Refused(StoreReader reader, string server) => reader.Guard(() => reader.Sql.Query(
        "SELECT utc, reason, line FROM forward_aside WHERE server = $server ORDER BY id",
        row => new RefusedPoint(row.Moment("utc"), row.GetString("reason"), row.GetString("line")),
        ("$server", server)));
}

/// <summary>A point that a server refused.</summary>
/// <param name="Utc">When it was refused.</param>
/// <param name="Reason">The server's reason, in its words.</param>
/// <param name="Line">The point as it was sent.</param>
public sealed record RefusedPoint(DateTimeOffset Utc, string Reason, string Line);

/// <summary>How far a server has taken what the store holds.</summary>
/// <param name="Condition">Number of the last condition; 0 for none.</param>
/// <param name="AlarmChange">Number of the last change in the alarm journal; 0 for none.</param>
public readonly record struct ForwardPlace(StoreCursor Readings, long Condition, long AlarmChange)
{
    /// <summary>Nothing taken yet.</summary>
    public static ForwardPlace Beginning { get; } = new(StoreCursor.Beginning, 0, 0);
}
