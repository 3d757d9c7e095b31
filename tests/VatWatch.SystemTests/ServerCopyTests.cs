using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Influx;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests;

/// <summary>Built daemons that copy their stores to one server, killed again and again.</summary>
public sealed partial class ServerCopyTests
{
    private static readonly int KillsOfEach = FaultFigures.Size(6, 15);
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);

    [Fact]
    [Trait("Campaign", "faults")]
    [Trait("Runs", "alone")]
    public async Task Two_daemons_killed_a_dozen_times_over_outages_of_the_server_lose_no_point_and_double_none()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Token = "write-only";
        using var hill = new Studio();
        using var river = new Studio();
        WriteConfig(hill, "hill-studio", server);
        WriteConfig(river, "river-yard", server);
        var random = new Random(20);
        var both = Task.WhenAll(KillAgainAndAgainAsync(hill, "hill-studio", server, new Random(21)), KillAgainAndAgainAsync(river, "river-yard", server, new Random(22)));
        while (!both.IsCompleted)
        {
            await Task.Delay(random.Next(1000, 3000), TestContext.Current.CancellationToken);
            await server.StopAsync();
            await Task.Delay(random.Next(200, 1500), TestContext.Current.CancellationToken);
            await server.StartAgainAsync();
        }

        await both;
        foreach (var (studio, site) in new[] { (hill, "hill-studio"), (river, "river-yard") })
        {
            var place = await FinishAsync(studio, site, server);
            Assert.True(place > 100, $"{place} points had gone out while the daemon of {site} was killed");
            Assert.Equal(StoredReadings(studio), ServerReadings(server, site));
            Assert.Equal(Count(studio, "alarm_change"), server.CountOf("vat_alarm", site));
            Assert.Equal(Count(studio, "condition"), server.CountOf("vat_condition", site));
            Assert.True(Count(studio, "alarm_change") > 0 && Count(studio, "condition") > 0, "alarms and conditions were stored");
        }

        Assert.Equal(0, server.Changed);
        Assert.All(server.Writes, write => Assert.True(write.IsGzip));
        FaultFigures.Hold("copy, kills and outages", $"2 daemons, {KillsOfEach} kills of each", $"{server.Points.Count} points, none lost, none doubled", "none lost, none doubled", true);
    }

    [Fact]
    [Trait("Campaign", "faults")]
    public async Task A_server_that_refuses_stalls_and_hangs_in_turn_holds_up_no_vat_and_gets_everything_in_the_end()
    {
        await using var server = await RecordingInflux.StartAsync();
        server.Token = "write-only";
        using var studio = new Studio();
        WriteConfig(studio, "hill-studio", server);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => server.CountOf("vat_reading", "hill-studio") > 50, "points go out", Limit);
        var rounds = FaultFigures.Size(1, 4);
        for (var round = 0; round < rounds; round++)
        {
            server.Answer(RecordedReply.InternalError, RecordedReply.TooMany("1"), RecordedReply.Unavailable(null), RecordedReply.BadGateway);
            await ComesThroughAsync("refusals in a row");
            server.Token = "another";
            await Task.Delay(1500, TestContext.Current.CancellationToken);
            server.Token = "write-only";
            await ComesThroughAsync("a token that did not fit");
            server.MostPoints = 20;
            await ComesThroughAsync("writes that are too large");
            server.MostPoints = int.MaxValue;
            server.Delay = TimeSpan.FromSeconds(8); // beyond the time limit of 5 s
            await Task.Delay(TimeSpan.FromSeconds(6), TestContext.Current.CancellationToken);
            server.Delay = TimeSpan.Zero;
            await ComesThroughAsync("answers that come too late");
        }

        Assert.Equal(0, await watch.StopAsync(Limit));
        Assert.DoesNotContain("   at ", watch.Output + watch.Errors, StringComparison.Ordinal);
        var stored = Query(studio, "SELECT microsecond FROM (SELECT id / 64 AS microsecond FROM measurement)", row => row.GetInt64(0));
        var longest = stored.Zip(stored.Skip(1), (a, b) => b - a).Max() / 1e6 / 600;
        await FinishAsync(studio, "hill-studio", server);
        Assert.Equal(StoredReadings(studio), ServerReadings(server, "hill-studio"));
        FaultFigures.Hold("copy, refusing server", $"{rounds} rounds of 500, 429, 503, 502, 401, 413 and no answer", $"{stored.Count} readings stored and copied, {server.Changed} doubled", "all copied, none doubled", server.Changed == 0);
        FaultFigures.AtMost("copy, refusing server", $"{rounds} rounds", "longest gap between stored readings", longest, 3, "s");

        async Task ComesThroughAsync(string what)
        {
            var before = server.CountOf("vat_reading", "hill-studio");
            await Eventually.TrueAsync(() => server.CountOf("vat_reading", "hill-studio") > before + 100, $"points go out again after {what}", Limit);
        }
    }

    [Fact]
    public async Task History_is_sent_again_while_the_daemon_runs()
    {
        await using var server = await RecordingInflux.StartAsync();
        using var studio = new Studio();
        WriteConfig(studio, "hill-studio", server);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => server.CountOf("vat_reading", "hill-studio") > 300, "some history is there", Limit);
        var lost = server.Points.Keys.Where((_, index) => index % 3 == 0).ToList();
        lost.ForEach(key => server.Points.TryRemove(key, out _));

        var (code, output, errors) = await VatWatchProcess.RunAsync(Limit, "influx", "backfill", "--config", studio.Config, "--from", "2020-01-01");

        Assert.True(code == 0, errors);
        Assert.Matches("^localhost, bucket vats: [0-9]+ points of site hill-studio.$", output);
        Assert.Equal("", errors);
        Assert.All(lost, key => Assert.Contains(key, server.Points.Keys));
        Assert.Equal(0, server.Changed);
        Assert.Equal(0, await watch.StopAsync(Limit));
    }

    [Fact]
    public async Task What_is_wrong_with_the_section_or_the_verb_is_told_in_a_sentence()
    {
        await using var server = await RecordingInflux.StartAsync();
        using var studio = new Studio();
        WriteConfig(studio, "hill-studio", server);
        Assert.Equal(0, (await VatWatchProcess.RunAsync(Limit, "check", "--config", studio.Config)).Code);
        File.Delete(TokenFile(studio));
        var check = await VatWatchProcess.RunAsync(Limit, "check", "--config", studio.Config);
        Assert.Equal(78, check.Code);
        Assert.Contains($"influx.tokenFile: there is no file {TokenFile(studio)}.", check.Errors, StringComparison.Ordinal);
        var usage = await VatWatchProcess.RunAsync(Limit, "influx", "backfill", "--config", studio.Config, "--from", "yesterday");
        Assert.Equal(64, usage.Code);
        Assert.Contains("--from is 'yesterday'; wanted a time", usage.Errors, StringComparison.Ordinal);
        var empty = await VatWatchProcess.RunAsync(Limit, "influx", "backfill", "--config", studio.Config, "--from", "2020-01-01");
        Assert.Equal(1, empty.Code);
        Assert.Contains("there is no vatwatch.db", empty.Errors, StringComparison.Ordinal);
        File.WriteAllText(studio.Config, File.ReadAllText(studio.Config).Replace("\"influx\"", "\"//influx\"", StringComparison.Ordinal));
        Assert.Contains("//influx is an unknown key", (await VatWatchProcess.RunAsync(Limit, "check", "--config", studio.Config)).Errors, StringComparison.Ordinal);
    }

    /// <summary>Every third kill may come while it still starts, the others while points go out.</summary>
    private static async Task KillAgainAndAgainAsync(Studio studio, string site, RecordingInflux server, Random random)
    {
        for (var kill = 0; kill < KillsOfEach; kill++)
        {
            await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
            if (kill % 3 > 0)
            {
                var before = server.CountOf("vat_reading", site);
                await Eventually.TrueAsync(() => watch.HasExited || server.CountOf("vat_reading", site) > before + 50, $"points of {site} go out", Limit);
            }

            await Task.Delay(random.Next(200, 3500), TestContext.Current.CancellationToken);
            Assert.False(watch.HasExited, watch.Errors);
            await watch.KillAsync();
        }
    }

    /// <summary>Sends what had no time to go out, from the place that the last kill left; gives how many points there were before.</summary>
    private static async Task<int> FinishAsync(Studio studio, string site, RecordingInflux server)
    {
        var before = server.CountOf("vat_reading", site);
        await using var store = WatchStore.Open(studio.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        var options = new InfluxOptions { Url = new Uri(server.Url), Org = "studio", Bucket = "vats", TokenFile = TokenFile(studio), Every = TimeSpan.FromMilliseconds(100) };
        var forwarder = new InfluxForwarder(store, options, site, DisplayUnits.Us, TimeProvider.System, NullLogger<InfluxForwarder>.Instance);
        using var stop = new CancellationTokenSource();
        var running = forwarder.RunAsync(stop.Token);
        await Eventually.TrueAsync(() => running.IsCompleted || IsThere(), $"everything of {site} is there", Limit);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        return before;

        bool IsThere() => StoredReadings(studio).Count == server.CountOf("vat_reading", site)
            && Count(studio, "alarm_change") == server.CountOf("vat_alarm", site) && Count(studio, "condition") == server.CountOf("vat_condition", site);
    }

    /// <summary>By the view that anyone with an SQLite program sees.</summary>
    private static List<string> StoredReadings(Studio studio) => Query(
        studio, "SELECT utc, vat, probe, value, quality FROM measurement_plain", row => string.Create(CultureInfo.InvariantCulture,
            $"{row.GetString(0)} {row.GetString(1)} {row.GetString(2)} {(row.IsDBNull(3) ? null : row.GetDouble(3))} {row.GetString(4)}"));

    private static List<string> ServerReadings(RecordingInflux server, string site) =>
    [
        .. server.Points.Where(point => point.Key.Series.StartsWith($"vat_reading,site={site},", StringComparison.Ordinal)).Select(point =>
        {
            var utc = DateTimeOffset.UnixEpoch.AddTicks(long.Parse(point.Key.Time, CultureInfo.InvariantCulture) / 1000 * 10);
            var names = ReadingTags().Match(point.Key.Series);
            var value = ValueField().Match(point.Value) is { Success: true } found ? double.Parse(found.Groups[1].Value, CultureInfo.InvariantCulture) : (double?)null;
            var quality = QualityField().Match(point.Value).Groups[1].Value;
            return string.Create(CultureInfo.InvariantCulture, $"{utc:yyyy-MM-ddTHH:mm:ss.ffffffZ} {names.Groups[1].Value} {names.Groups[2].Value} {value} {quality}");
        }).Order(StringComparer.Ordinal),
    ];

    private static long Count(Studio studio, string table) => Query(studio, $"SELECT count(*) FROM {table}", row => row.GetInt64(0))[0];

    private static List<T> Query<T>(Studio studio, string sql, Func<SqliteDataReader, T> row)
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(studio.Data, "vatwatch.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(row(reader));
        }

        rows.Sort();
        return rows;
    }

    private static string TokenFile(Studio studio) => Path.Combine(studio.Folder, "token");

    /// <summary>A vat that is being overheated, 600 times as fast as life.</summary>
    private static void WriteConfig(Studio studio, string site, RecordingInflux server)
    {
        File.WriteAllText(TokenFile(studio), "write-only\n");
        var mqtt = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{FreePort.Next()}");
        File.WriteAllText(studio.Config, $$"""
            {
              "site": "{{site}}",
              "display": "us",
              "data": {{JsonSerializer.Serialize(studio.Data)}},
              "web": { "listen": "{{studio.Url}}" },
              "mqtt": { "broker": "builtin", "listen": "{{mqtt}}" },
              "store": { "commitInterval": "1 s" },
              "influx": { "url": "{{server.Url}}", "org": "studio", "bucket": "vats", "tokenFile": {{JsonSerializer.Serialize(TokenFile(studio))}}, "every": "1 s", "batch": 200, "timeout": "5 s" },
              "buses": { "demo": { "kind": "simulation", "speed": 600, "start": "112 °F", "ambient": "62 °F", "heater": "1500 W", "lid": true } },
              "vats": [ {
                "id": "weld-yard", "name": "Weld Yard vat", "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
                "temperature": { "low": "100 °F", "high": "118 °F", "limit": "120 °F" },
                "ph":  { "low": 9.5, "high": 10.5 },
                "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
                "probes": [
                  { "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "5 s" },
                  { "id": "liquor-orp", "measures": "orp", "bus": "demo", "driver": "simulated", "every": "5 s" }
                ]
              } ]
            }
            """);
    }

    [GeneratedRegex(",vat=([^,]+),probe=([^,]+),")]
    private static partial Regex ReadingTags();

    [GeneratedRegex("(?:^|,)value=([^,]+)")]
    private static partial Regex ValueField();

    [GeneratedRegex("quality=\"([a-z]+)\"")]
    private static partial Regex QualityField();
}
