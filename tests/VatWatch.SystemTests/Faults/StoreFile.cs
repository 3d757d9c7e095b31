using Microsoft.Data.Sqlite;

namespace VatWatch.SystemTests.Faults;

/// <summary>The database of a daemon that has stopped, read by the words of <c>Store/FORMAT.md</c> and none of the store's own code.</summary>
internal static class StoreFile
{
    /// <summary>Every reading of a probe: its moment on the monotonic clock of run 1, its label, whether that was trusted, its value; in order of that moment.</summary>
    public static IReadOnlyList<(TimeSpan At, DateTimeOffset Label, bool Trusted, string? Value)> Readings(string dataFolder, string probe) =>
        Rows(
            dataFolder,
            """
            SELECT (m.id >> 6) - c.origin - m.skew, m.id >> 6, c.utc_trusted, hex(coalesce(m.value, m.raw)) FROM measurement m
            JOIN circumstance c ON c.id = m.circumstance JOIN probe p ON p.id = c.probe WHERE p.probe = $probe AND c.run = 1 ORDER BY 1
            """,
            reader => (
                TimeSpan.FromMicroseconds(reader.GetInt64(0)),
                new DateTimeOffset(2020, 1, 1, 0, 0, 0, TimeSpan.Zero).AddMicroseconds(reader.GetInt64(1)),
                reader.GetBoolean(2),
                reader.IsDBNull(3) ? null : reader.GetString(3)),
            ("$probe", probe));

    /// <summary>How many rows a table has.</summary>
    public static long Count(string dataFolder, string table) => Rows(dataFolder, $"SELECT count(*) FROM {table}", reader => reader.GetInt64(0))[0];

    private static List<T> Rows<T>(string dataFolder, string query, Func<SqliteDataReader, T> read, params (string Name, string Value)[] parameters)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(dataFolder, "vatwatch.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = query;
        foreach (var (name, value) in parameters)
        {
            command.Parameters.AddWithValue(name, value);
        }

        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(read(reader));
        }

        return rows;
    }
}
