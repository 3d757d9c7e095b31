using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>Rows of a sound store that hold what nobody wrote, under the built binary; the store itself walks every field in its own tests.</summary>
[Trait("Campaign", "faults")]
public sealed class SpoiltRowsTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task A_start_passes_over_rows_that_cannot_be_read_tells_them_and_shows_every_page()
    {
        using var studio = new Studio();
        studio.WriteConfig(
            """ "demo": { "kind": "simulation", "start": "45 °C", "ambient": "18 °C", "heater": "1500 W" } """,
            Studio.Vat("weld-yard", """{ "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "1 s" }"""));
        await WatchStore.Open(studio.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance).DisposeAsync();
        Spoil(studio.Data);

        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Patience);
            Assert.False(watch.HasExited, watch.Output + watch.Errors);
            using var page = new HttpClient { BaseAddress = new(studio.Url), Timeout = Patience };
            await Eventually.TrueAsync(() => watch.Output.Contains("cannot be read and are passed over", StringComparison.Ordinal), "it is told", Patience);
            Assert.Contains("store-fault", await page.GetStringAsync("/api/alarms", TestContext.Current.CancellationToken), StringComparison.Ordinal);
            foreach (var path in (string[])["/", "/alarms", "/vats/weld-yard", "/vats/weld-yard/chart.svg", "/api/vats/weld-yard/chart", "/calibration", "/plan", "/metrics"])
            {
                using var reply = await page.GetAsync(path, TestContext.Current.CancellationToken);
                Assert.True(reply.IsSuccessStatusCode, $"{path}: {reply.StatusCode}");
            }

            Assert.Equal(0, await watch.StopAsync(Patience));
        }

        FaultFigures.Hold("spoilt rows, daemon", "10 rows of 7 tables", "starts, tells it, shows every page, ends with 0", "the same", true);
        var (code, _, errors) = await VatWatchProcess.RunAsync(Patience, "verify", "--data", studio.Data);
        Assert.Equal(1, code);
        foreach (var table in (string[])["alarm_status", "alarm_change", "session", "condition", "plan", "probe-s?lent", "1 value of probe liquor of weld-yard cannot have been measured"])
        {
            Assert.Contains(table, errors, StringComparison.Ordinal);
        }
    }

    private static void Spoil(string folder)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "vatwatch.db")};Pooling=False;Foreign Keys=False");
        connection.Open();
        foreach (var sql in (string[])
        [
            "INSERT INTO alarm_status (vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action) VALUES ('weld-yard', 'overheat', 'unacknowledgee', 'critical', 1, 0, 0, 1, '', '', '')",
            "INSERT INTO alarm_status (vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action, aside_utc) VALUES ('weld-yard', 'cold', 'shelved', 'low', 1, 0, 0, 1, '', '', '', x'00')",
            "INSERT INTO alarm_change (utc, monotonic, utc_trusted, before, announce, vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action) VALUES (strftime('%s') * 10000000, 0, 1, 'normal', 1, 'weld-yard', 'cold', 'unacknowledged', 'lqw', 1, 0, 0, 1, '', '', '')",
            "INSERT INTO contact_call (contact, vat, alarm, opened, told, repeats) VALUES ('mqtt', 'weld-yard', 'overheat', 0, 1, 'many')",
            "INSERT INTO session (vat, id, run, started, monotonic, utc_trusted, by) VALUES ('weld-yard', '2031-03-14', 1, 9223372036854775807, 0, 1, 'a dyer')",
            "INSERT INTO alarm_status (vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action) VALUES ('weld-yard', 'probe-s+lent', 'unacknowledged', 'high', 1, 0, 0, 1, '', '', '')",
            "INSERT INTO alarm_status (vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action) VALUES ('weld-yard', '#', 'unacknowledged', 'high', 1, 0, 0, 1, '', '', '')",
            "INSERT INTO plan (vat, kind, begins, utc, json) VALUES ('weld-yard', 'warm', 0, 0, '{')",
            "INSERT INTO probe (id, vat, probe, measures, unit) VALUES (9, 'weld-yard', 'liquor', 'temperature', '°C')",
            "INSERT INTO circumstance (id, run, probe, origin, utc_trusted, quality) VALUES (9, 1, 9, 0, 1, 0)",
            "INSERT INTO measurement (id, circumstance, skew, raw) VALUES ((strftime('%s') - 1577836800) * 1000000 << 6, 9, 0, 1e308)",
            "INSERT INTO condition (utc, utc_trusted, vat, state, reasons, numbers) VALUES (strftime('%s') * 10000000, 1, 'weld-yard', 'ready', '[', '{')",
        ])
        {
            using var command = connection.CreateCommand();
            command.CommandText = sql;
            Assert.Equal(1, command.ExecuteNonQuery());
        }
    }
}
