using VatWatch.Store.Disk;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;

using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Schema;

/// <summary>
/// Small databases of earlier schemas, kept under <c>kept/</c> as they were written. To keep one more, set VATWATCH_KEEP_SCHEMA to its folder, add the
/// new tables to <see cref="Rows(int)"/> and run these tests once.
/// </summary>
public sealed class KeptFile
{
    /// <summary>The newest schema of which a file is kept.</summary>
    internal const int NewestKept = 10;

    /// <summary>Writes a file of each schema anew; without the environment's word it only tells that it can.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    [InlineData(8)]
    [InlineData(9)]
    [InlineData(10)]
    public void A_file_of_a_schema_can_be_written(int version)
    {
        var folder = NewFolder();
        using (var sql = new StoreFile(folder).OpenForWriting(version))
        {
            sql.Execute("INSERT INTO run (started, pid) VALUES (0, 1)");
            var table = new MeasurementTable(sql, 1);
            table.Add([Reading(2, null)]);
            table.Add([Reading(1)]);
            foreach (var row in Rows(version))
            {
                sql.Execute(row);
            }

            sql.Execute("PRAGMA journal_mode = DELETE");
        }

        Assert.All(Rows(folder), one => Assert.NotEmpty(one.Value));
        if (Environment.GetEnvironmentVariable("VATWATCH_KEEP_SCHEMA") is { Length: > 0 } kept)
        {
            File.Copy(Path.Combine(folder, "vatwatch.db"), Path.Combine(kept, $"schema-{version}.db"), overwrite: true);
        }

        Directory.Delete(folder, recursive: true);
    }

    /// <summary>What a file holds: each table with its rows as text; rollups and the run, which the next start adds to, by their first columns.</summary>
    internal static Dictionary<string, List<string>> Rows(string folder)
    {
        using var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={Path.Combine(folder, "vatwatch.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var sql = new SqlSession(connection);
        var tables = sql.Query("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'", row => row.GetString(0));
        return tables.ToDictionary(table => table, table => sql.Query($"SELECT * FROM {table}", row =>
            string.Join('|', Enumerable.Range(0, row.FieldCount).Select(column => $"{row.GetName(column)}={SQLitePCL.raw.sqlite3_column_text(row.Statement, column).utf8_to_string()}"))));
    }

    private static IEnumerable<string> Rows(int version)
    {
        const string Status = "'madder-lane', 'overheat', 'unacknowledged', 'critical', 1, 10, 20, 1, 49.5, 49, '°C', 'too hot', 'switch it off', NULL, NULL";
        const string Columns = "vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, value, limit_value, unit, text, action, acknowledged_by, acknowledged_at";
        string[][] rows =
        [
            [],
            ["INSERT INTO calibration (probe, utc, json) VALUES ('glass', 5, '{}')"],
            [
                $"INSERT INTO alarm_status ({Columns}) VALUES ({Status})",
                $"INSERT INTO alarm_change (id, utc, monotonic, utc_trusted, before, by, announce, {Columns}) VALUES (1, 10, 20, 1, 'normal', NULL, 1, {Status})",
            ],
            [
                "INSERT INTO outbox (channel, vat, alarm, priority, weight, created, sentence) VALUES ('mqtt', 'madder-lane', 'overheat', 'critical', 3, 10, 'It is too hot.')",
                "INSERT INTO outbox_dropped VALUES ('mqtt', 2)",
            ],
            [
                "INSERT INTO session VALUES (1, 'madder-lane', 'a1', 1, 10, 20, 1, NULL, 'a dyer', 125, 'wool', 'deep', NULL)",
                "INSERT INTO session_entry (id, vat, session, run, utc, monotonic, utc_trusted, kind, by, material, amount, text, withdrawn, withdrawn_by) VALUES (1, 'madder-lane', 'a1', 1, 11, 21, 1, 'note', 'a dyer', NULL, NULL, 'coppery flower', NULL, NULL)",
                "INSERT INTO photo VALUES (1, 'image/png', x'89504e47')",
                "INSERT INTO learned_heat VALUES ('madder-lane', 12, '{}')",
            ],
            [
                $"INSERT INTO alarm_status VALUES ({Status.Replace("overheat", "cold").Replace("unacknowledged", "shelved")}, 1, 'a dyer', 30, 1, 'the door stands open', 40)",
                $"INSERT INTO alarm_change VALUES (2, 10, 20, 1, 'normal', NULL, 1, {Status}, 1, 'a dyer', 30, 1, 'the door stands open', 40, 'page', 'mind the draught')",
                "INSERT INTO desk_request (utc, act, vat, alarm, by) VALUES (10, 'acknowledge', 'madder-lane', 'overheat', 'a dyer')",
            ],
            [
                "INSERT INTO condition (utc, utc_trusted, vat, state, reasons, numbers) VALUES (10, 1, 'madder-lane', 'ready', '[]', '{}')",
                "INSERT INTO forward_place VALUES ('http://127.0.0.1:8086 studio vats', 64, 0, 1, 1)",
                "INSERT INTO forward_aside (server, utc, reason, line) VALUES ('http://127.0.0.1:8086 studio vats', 10, 'refused', 'x y=1 1')",
            ],
            [
                "INSERT INTO outbox (channel, vat, alarm, priority, weight, created, sentence, document, set_aside) VALUES ('phone', 'madder-lane', 'cold', 'medium', 1, 10, 'It is too cold.', '{}', 1)",
                "INSERT INTO contact_call VALUES ('phone', 'madder-lane', 'overheat', 10, 20, 1, 0)",
            ],
            ["INSERT INTO archive VALUES ('madder-lane', 203103, 0, -9223372036854775808, 1)"],
            ["UPDATE session_entry SET ready_by = 13 WHERE id = 1"],
        ];
        return rows.Take(version).SelectMany(step => step).Where(row => version < 10 || !(row.Contains("INTO archive", StringComparison.Ordinal) || row.Contains("INTO desk_request", StringComparison.Ordinal)));
    }
}
