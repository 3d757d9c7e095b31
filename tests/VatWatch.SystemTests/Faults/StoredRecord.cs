using System.Globalization;
using Microsoft.Data.Sqlite;

namespace VatWatch.SystemTests.Faults;

/// <summary>What a store holds, read by its plain view and tables as any SQLite program would.</summary>
internal sealed class StoredRecord : IDisposable
{
    private readonly SqliteConnection _connection;

    public StoredRecord(string folder)
    {
        _connection = new($"Data Source={Path.Combine(folder, "vatwatch.db")};Mode=ReadOnly;Pooling=False");
        _connection.Open();
    }

    /// <summary>Readings by probe and time in milliseconds since 1970, rounded, in order of time.</summary>
    public IReadOnlyList<(string Probe, long Milliseconds, double? Value)> Readings() => Query(
        "SELECT probe, utc, value FROM measurement_plain ORDER BY utc",
        row => (row.GetString(0), Milliseconds(row.GetString(1)), row.IsDBNull(2) ? (double?)null : row.GetDouble(2)));

    /// <summary>How often each alarm came into each state, as "weld-yard overheat unacknowledged".</summary>
    public IReadOnlyDictionary<string, int> AlarmStates() => Query(
        "SELECT vat || ' ' || alarm || ' ' || state, count(*) FROM alarm_change WHERE note IS NULL GROUP BY 1", row => (row.GetString(0), row.GetInt32(1)))
        .ToDictionary(pair => pair.Item1, pair => pair.Item2);

    /// <summary>Sentences that are or were on their way to people, oldest first.</summary>
    public IReadOnlyList<string> Sentences() => Query("SELECT sentence FROM outbox ORDER BY id", row => row.GetString(0));

    /// <summary>The rows of any query.</summary>
    public IReadOnlyList<T> Query<T>(string sql, Func<SqliteDataReader, T> take)
    {
        using var command = _connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(take(reader));
        }

        return rows;
    }

    public void Dispose() => _connection.Dispose();

    private static long Milliseconds(string utc) =>
        (long)Math.Round((DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture) - DateTimeOffset.UnixEpoch).TotalMilliseconds);
}
