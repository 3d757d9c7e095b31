using Microsoft.Data.Sqlite;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Calibration;
using VatWatch.Conditions.Stored;
using VatWatch.Notifications;
using VatWatch.Pipeline;
using VatWatch.Plans;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;
using VatWatch.Store.Sql;
using VatWatch.Testing;
using VatWatch.Tests.Calibration;
using VatWatch.Tests.Pipeline;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Schema;

/// <summary>
/// Every field of every table of a sound file, spoilt in every kind of way: nothing of it stops the start, a reader or a write, and what is of the wrong kind
/// is told. The small size takes one kind after the other from field to field.
/// </summary>
[Trait("Campaign", "faults")]
public sealed class SpoiltFieldsTests
{
    private static readonly VatId Wired = new("wired");

    /// <summary>What stands in the field afterwards, in SQL; and whether no column of the schema may hold it, whatever it is for.</summary>
    private static readonly (string Kind, string Sql)[] Damages =
    [
        ("none", "NULL"),
        ("garbage text", "'4f~ spoilt'"),
        ("huge text", "printf('%.*c', 3000000, 'x')"),
        ("text with NUL", "'ab' || char(0) || 'cd'"),
        ("broken UTF-8", "CAST(x'66ff8041' AS TEXT)"),
        ("bytes", "x'00ff10'"),
        ("largest number", "9223372036854775807"),
        ("smallest number", "-9223372036854775808"),
        ("real number", "1e308"),
        ("empty text", "''"),
    ];

    [Fact]
    public async Task No_field_of_any_table_stops_the_start_a_reader_or_a_write()
    {
        var sound = await FillAsync();
        Assert.Empty(await ExerciseAsync(sound, expectTold: false));
        var failures = new List<string>();
        var (cases, number) = (0, 0);
        foreach (var (table, column, schema) in Columns(sound))
        {
            foreach (var (kind, sql) in FaultFigures.IsFull ? Damages : [Damages[number++ * 3 % Damages.Length]])
            {
                var folder = NewFolder();
                File.WriteAllBytes(Path.Combine(folder, "vatwatch.db"), sound);
                if (!TrySpoil(folder, table, column, schema, sql))
                {
                    Directory.Delete(folder, recursive: true);
                    continue;
                }

                cases++;
                var mustBeTold = kind is "bytes" && column is not ("raw" or "value" or "bytes") && !column.EndsWith("_value", StringComparison.Ordinal);
                failures.AddRange((await ExerciseAsync(folder, mustBeTold)).Select(failure => $"{table}.{column}, {kind}: {failure}"));
            }
        }

        failures.Take(40).ToList().ForEach(TestContext.Current.TestOutputHelper!.WriteLine);
        FaultFigures.AtMost("spoilt fields, store", $"{cases} fields of a sound file", "starts, readers and writes that fail", failures.Count, 0);
        Assert.InRange(cases, FaultFigures.IsFull ? 1200 : 100, 3000);
    }

    [Fact]
    public async Task A_name_that_no_topic_can_have_is_passed_over_with_its_row()
    {
        await using var rig = await AlarmedAsync();
        await rig.SqlAsync("UPDATE alarm_status SET alarm = 'pro+e-silent.liquor' WHERE alarm = 'overheat'");
        await rig.SqlAsync("UPDATE outbox SET vat = 'wi#ed'");
        Assert.Empty(rig.Read(reader => AlarmJournal.Current(reader)));
        Assert.Empty(rig.Read(reader => OutboxTable.All(reader)));
        Assert.Equal(2, rig.Read(StoreSurvey.Faults).Count);
    }

    [Fact]
    public async Task A_plan_that_cannot_be_read_is_told()
    {
        await using var rig = Start();
        await rig.SqlAsync("INSERT INTO plan (vat, kind, begins, utc, json) VALUES ('wired', 'warm', 0, 0, '{'), ('wired', 'day', 0, 0, '4f~'), ('wired', 'foretold', 0, 0, '[]')");
        Assert.Empty(rig.Read(PlanTable.WarmUps));
        Assert.Null(rig.Read(reader => PlanTable.DayOf(reader, Wired, StoredTime.Utc(0))));
        Assert.Equal(3, rig.Read(StoreSurvey.Faults).Count(fault => fault.StartsWith("A row of plan (vat wired, ", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_value_that_no_probe_can_give_is_in_no_chart_and_is_told()
    {
        await using var rig = await AlarmedAsync();
        await rig.OfferAsync(Enumerable.Range(0, 40).Select(n => Reading(n * 60, 40, vat: Wired, probe: "wired-t")));
        await rig.SqlAsync("UPDATE measurement SET raw = 1.7e308 WHERE id IN (SELECT id FROM measurement ORDER BY id LIMIT 3)");
        var columns = rig.Read(reader => reader.Columns(Wired, Dusk, Dusk.AddMinutes(40), 400, _ => TimeSpan.FromMinutes(5)))[new("wired-t")];
        Assert.All(columns, column => Assert.Equal(40, column.Max));
        Assert.Equal(37, rig.Read(reader => reader.Measurements(Wired, Dusk, Dusk.AddMinutes(40)).Count()));
        Assert.Contains("3 values of probe wired-t of wired cannot have been measured.", rig.Read(StoreSurvey.Faults));
    }

    /// <summary>A store with an alarm and a sentence about it.</summary>
    private static async Task<StoreRig> AlarmedAsync()
    {
        var rig = Start();
        await rig.WriteAsync(work =>
        {
            AlarmJournal.Append(work, new(AlarmState.Normal, Overheat(new Stamp(Dusk, TimeSpan.Zero, true)), new Stamp(Dusk, TimeSpan.Zero, true), null, true));
            OutboxTable.Add(work, new Notification(0, Wired, new("overheat"), AlarmPriority.Critical, Dusk, "It is too hot."), "phone");
            return true;
        });
        return rig;
    }

    private static async Task<List<string>> ExerciseAsync(byte[] database, bool expectTold)
    {
        var folder = NewFolder();
        File.WriteAllBytes(Path.Combine(folder, "vatwatch.db"), database);
        return await ExerciseAsync(folder, expectTold);
    }

    /// <summary>Starts the pipeline on a folder, reads all that pages and stages read, and writes; what went wrong. Removes the folder.</summary>
    private static async Task<List<string>> ExerciseAsync(string folder, bool expectTold)
    {
        var failures = new List<string>();
        try
        {
            await using var line = new LineRig(folder: folder);
            var store = line.Store;
            if (store.Health.Quarantined is { } sentence)
            {
                failures.Add(sentence);
            }

            using (var reader = store.OpenReader())
            {
                var faults = StoreSurvey.Faults(reader);
                ReadAll(reader);
                if (expectTold && (faults.Count == 0))
                {
                    failures.Add("verify says nothing");
                }
            }

            await WriteAsync(store);
            if (store.Health is { Ok: false } health)
            {
                failures.Add($"writing: {health.Reason}");
            }
        }
        catch (Exception caught) when (caught is not Xunit.Sdk.IAssertionException)
        {
            failures.Add($"{caught.GetType().Name}: {caught.Message} {caught.StackTrace?.Split('\n').FirstOrDefault(frame => frame.Contains("VatWatch", StringComparison.Ordinal))?.Trim()}");
        }

        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        return failures;
    }

    private static void ReadAll(StoreReader reader)
    {
        var (from, to) = (Dusk.AddDays(-1), Dusk.AddDays(400));
        _ = reader.Latest();
        _ = reader.Span(Wired);
        _ = reader.LastUtc();
        _ = reader.Columns(Wired, Dusk, Dusk.AddMinutes(10), 600, _ => TimeSpan.FromMinutes(1));
        _ = reader.Columns(Wired, from, to, 600, _ => TimeSpan.FromMinutes(1));
        _ = reader.Rollups(Wired, new ProbeId("wired-t"), from, to, quarters: true);
        _ = reader.RowsAfter(StoreCursor.Beginning, 1000);
        _ = AlarmJournal.Changes(reader, null, from, to);
        _ = AlarmJournal.Newest(reader, Wired, null, 100);
        _ = AlarmJournal.Opening(reader, to);
        _ = SessionTable.Open(reader, Wired);
        _ = EntryTable.Between(reader, Wired, from, to);
        _ = EntryTable.PhotoOf(reader, Wired, 1);
        _ = ConditionTable.Between(reader, Wired, from, to);
        _ = ConditionTable.States(reader, Wired, from, to).ToList();
        _ = CalibrationTable.Newest(reader);
        _ = ForwardTable.Place(reader, "studio");
        _ = ForwardTable.Refused(reader, "studio");
    }

    private static async Task WriteAsync(WatchStore store)
    {
        var cancel = TestContext.Current.CancellationToken;
        var now = new Stamp(Dusk.AddDays(2), TimeSpan.FromDays(2), true);
        store.Enqueue(Reading(20, vat: Wired, probe: "wired-t"));
        store.Enqueue(Reading(200, null, vat: Wired, probe: "wired-t"));
        await store.FlushAsync(cancel);
        await store.WriteAsync(work => CalibrationTable.Append(work, new ProbeId("wired-t"), Dusk, "{}"), cancel);
        await store.WriteAsync(work => OutboxTable.Add(work, new Notification(0, Wired, new("cold"), AlarmPriority.Medium, Dusk, "It is cold."), "phone"), cancel);
        await store.WriteAsync(work => EntryTable.Write(work, new EntryDraft(Wired, EntryKind.Note, "a dyer") { Text = "calm" }, null, now) is null, cancel);
        await store.WriteAsync(
            work =>
            {
                AlarmJournal.Append(work, new(AlarmState.Normal, Overheat(now), now, null, true));
                return true;
            },
            cancel);
    }

    private static AlarmStatus Overheat(Stamp at) => new()
    {
        Vat = Wired,
        Alarm = new("overheat"),
        State = AlarmState.Unacknowledged,
        Priority = AlarmPriority.Critical,
        Since = at,
        Text = "Too hot.",
        Action = "Unplug it.",
    };

    /// <summary>A sound store with a row or more in every table, as bytes.</summary>
    private static async Task<byte[]> FillAsync()
    {
        var folder = NewFolder();
        await using (var rig = Start(folder: folder))
        {
            await rig.OfferAsync(Enumerable.Range(0, 40).Select(n => Reading(n * 60, n % 9 == 0 ? null : 40 + n / 10.0, vat: Wired, probe: "wired-t")));
            await rig.OfferAsync(Reading(30, vat: Wired, probe: "wired-t"));
            var now = new Stamp(Dusk, TimeSpan.Zero, true);
            var shelved = Overheat(now) with { Alarm = new("cold"), State = AlarmState.Shelved, SetAside = new("a dyer", Dusk, true, "the lid is off", Dusk.AddHours(1)) };
            await rig.WriteAsync(work =>
            {
                AlarmJournal.Append(work, new(AlarmState.Normal, Overheat(now) with { Value = 49.5, Limit = 49, Unit = "°C", AcknowledgedBy = "a dyer", AcknowledgedAt = Dusk }, now, "a dyer", true));
                AlarmJournal.Append(work, new(AlarmState.Normal, shelved, now, null, false));
                CalibrationTable.Append(work, new ProbeId("wired-t"), Dusk, CalibrationDocument.Write(Electrodes.TwoBuffers));
                OutboxTable.Add(work, new Notification(0, Wired, new("overheat"), AlarmPriority.Critical, Dusk, "It is too hot.") { Document = "{}" }, "phone");
                var session = SessionTable.Start(work, Wired, new DateOnly(2031, 3, 14), now, "a dyer", SessionDetails.None);
                EntryTable.Write(work, new EntryDraft(Wired, EntryKind.Note, "a dyer") { Text = "coppery flower" }, session.Id, now);
                return true;
            });
            foreach (var sql in (string[])
            [
                "INSERT INTO outbox_dropped VALUES ('phone', 2)",
                "INSERT INTO photo VALUES (1, 'image/png', x'89504e470d0a1a0a')",
                "INSERT INTO learned_heat VALUES ('wired', 12, '{}')",
                $"INSERT INTO condition (utc, utc_trusted, vat, state, reasons, numbers) VALUES ({StoredTime.Of(Dusk)}, 1, 'wired', 'ready', '[]', '{{\"marginMillivolts\":12.5}}')",
                "INSERT INTO forward_place VALUES ('studio', 64, 0, 1, 1)",
                "INSERT INTO forward_aside (server, utc, reason, line) VALUES ('studio', 10, 'refused', 'x y=1 1')",
                "INSERT INTO contact_call VALUES ('phone', 'wired', 'overheat', 10, 20, 1, 0)",
                "INSERT INTO circumstance (run, probe, origin, utc_trusted, quality) VALUES (1, 1, 5, 0, 0)",
            ])
            {
                await rig.SqlAsync(sql);
            }
        }

        using (var connection = Connect(folder))
        {
            Execute(connection, "PRAGMA journal_mode = DELETE");
        }

        var bytes = File.ReadAllBytes(Path.Combine(folder, "vatwatch.db"));
        Directory.Delete(folder, recursive: true);
        return bytes;
    }

    private static List<(string Table, string Column, string Schema)> Columns(byte[] database)
    {
        var folder = NewFolder();
        File.WriteAllBytes(Path.Combine(folder, "vatwatch.db"), database);
        var columns = new List<(string, string, string)>();
        using (var connection = Connect(folder))
        using (var command = connection.CreateCommand())
        {
            command.CommandText = "SELECT t.name, c.name, t.sql FROM sqlite_schema t JOIN pragma_table_info(t.name) c WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' ORDER BY t.name, c.cid";
            using var rows = command.ExecuteReader();
            while (rows.Read())
            {
                columns.Add((rows.GetString(0), rows.GetString(1), rows.GetString(2)));
            }
        }

        Directory.Delete(folder, recursive: true);
        return columns;
    }

    /// <summary>Spoils a field of every row; false where the layout of the file itself allows no such value.</summary>
    private static bool TrySpoil(string folder, string table, string column, string schema, string value)
    {
        try
        {
            // What every row must have is taken out of the schema while the field is emptied.
            Reword(folder, table, schema.Replace(" NOT NULL", "", StringComparison.Ordinal));
            using (var connection = Connect(folder))
            {
                if (Execute(connection, $"UPDATE OR IGNORE {table} SET {column} = {value}") == 0)
                {
                    return false;
                }
            }

            Reword(folder, table, schema);
            return true;
        }
        catch (SqliteException)
        {
            return false;
        }
    }

    private static void Reword(string folder, string table, string schema)
    {
        using var connection = Connect(folder);
        Execute(connection, "PRAGMA writable_schema = ON");
        using var command = connection.CreateCommand();
        command.CommandText = "UPDATE sqlite_schema SET sql = $sql WHERE name = $name";
        command.Parameters.AddWithValue("$sql", schema);
        command.Parameters.AddWithValue("$name", table);
        command.ExecuteNonQuery();
    }

    private static int Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteNonQuery();
    }

    private static SqliteConnection Connect(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "vatwatch.db")};Pooling=False;Foreign Keys=False");
        connection.Open();
        return connection;
    }
}
