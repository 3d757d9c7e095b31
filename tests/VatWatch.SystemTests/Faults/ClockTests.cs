using System.Diagnostics;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>A wall clock that begins in 1970, leaps, goes back and shakes, while the real daemon runs: nothing but labels may depend on it.</summary>
[Trait("Campaign", "faults")]
public sealed class ClockTests
{
    private const string Campaign = "clock";
    private readonly Dictionary<string, List<double>> _told = [];

    /// <summary>On-delay of the alarm, s, in which the clock is set.</summary>
    private const double OnDelay = 2;

    /// <summary>Readings at 5 Hz that a busy machine may make late, s.</summary>
    private const double LongestGap = 3;

    [Fact]
    public async Task Alarms_keep_their_time_and_readings_their_order_whatever_the_clock_says()
    {
        var rounds = FaultFigures.Size(1, 5);
        using var studio = new Studio();
        await using var instrument = await PtyInstrument.AskedAsync();
        await instrument.TellAsync("set T 45");
        WriteConfig(studio, instrument.Port);
        var clock = new FakedClock(studio.Folder, "@1970-01-01 00:10:00");
        await using var daemon = await WatchedDaemon.StartAsync(studio, clock.Environment);

        await daemon.EventuallyAsync(async () => await StateAsync(daemon, "/api/alarms", "clock-untrusted") == "unacknowledged", "the clock's alarm is raised", TimeSpan.FromSeconds(20));
        Assert.Equal(0, await daemon.MetricAsync("vatwatch_clock_trusted"));
        await HoldAlarmAsync(daemon, instrument, "1970, then set right", () => clock.Set("+0"));
        await daemon.EventuallyAsync(async () => await StateAsync(daemon, "/api/alarms", "clock-untrusted") == "returned-unacknowledged", "the clock's alarm returns", TimeSpan.FromSeconds(20));

        IReadOnlyList<KeptReading> before = [];
        for (var round = 0; round < rounds; round++)
        {
            await HoldAlarmAsync(daemon, instrument, "forward 2 days", () => clock.Set("+2d"));
            before = await KeptSoFarAsync(daemon, before);
            await HoldAlarmAsync(daemon, instrument, "forward 10 years", () => clock.Set("+3650d"));
            before = await KeptSoFarAsync(daemon, before);
            await HoldAlarmAsync(daemon, instrument, "back, to an hour ago", () => clock.Set("-1h"));
            before = await KeptSoFarAsync(daemon, before);
            var shaking = true;
            var shake = Task.CompletedTask;
            await HoldAlarmAsync(daemon, instrument, "jitter of half a second", () => shake = ShakeAsync(clock, () => shaking));
            shaking = false;
            await shake;
        }

        foreach (var (step, told) in _told)
        {
            FaultFigures.AtLeast(Campaign, $"{step}, {told.Count} times", "alarm after", told.Min(), OnDelay - 0.5, "s");
            FaultFigures.AtMost(Campaign, $"{step}, {told.Count} times", "alarm after", told.Max(), OnDelay + 3, "s");
        }

        Assert.Equal(1, await daemon.MetricAsync("vatwatch_clock_trusted"));
        var taken = await daemon.MetricAsync("vatwatch_probe_samples_total", "probe=\"one-t\"");
        var kept = await daemon.StopAndReadAsync("one");
        await KeptSoFarAsync(daemon, before);
        FaultFigures.Hold(Campaign, $"{3 * rounds + 1} looks at the readings kept before a step", "none changed or gone", "none", true);
        HoldReadings(studio, taken, kept);
        Assert.Contains("times are not trusted until it is set", daemon.Process.Output, StringComparison.Ordinal);
        await HoldDrawingsAsync(studio);
    }

    private static void WriteConfig(Studio studio, string port)
    {
        studio.WriteConfig(
            $$"""
            "bench": { "kind": "serial", "port": "{{port}}", "baud": 9600 }
            """,
            Studio.Vat("one", FaultProbes.Text("bench", "200 ms"), $$"""{ "overheat": { "onDelay": "{{OnDelay}} s", "offDelay": "1 s" }, "overheat-forecast": { "enabled": false } }"""));
        studio.Add(""" "alarms": { "clock-untrusted": { "onDelay": "2 s", "offDelay": "2 s" } } """);
    }

    /// <summary>Heats the vat past its limit, sets the clock in the middle of the on-delay, and holds the alarm to its time by a clock of the test.</summary>
    private async Task HoldAlarmAsync(WatchedDaemon daemon, PtyInstrument instrument, string size, Action set)
    {
        await instrument.TellAsync("set T 50");
        var watch = Stopwatch.StartNew();
        await Task.Delay(TimeSpan.FromSeconds(OnDelay / 2), TestContext.Current.CancellationToken);
        set();
        await daemon.EventuallyAsync(async () => await StateAsync(daemon, "/api/vats/one", "overheat") == "unacknowledged", $"overheat is told ({size})", TimeSpan.FromSeconds(30));
        (_told.TryGetValue(size, out var told) ? told : _told[size] = []).Add(watch.Elapsed.TotalSeconds);
        await daemon.GetAsync("/");
        await daemon.GetAsync("/vats/one");
        await daemon.GetAsync("/api/vats/one/chart");
        await instrument.TellAsync("set T 45");
        await daemon.EventuallyAsync(async () => await StateAsync(daemon, "/api/vats/one", "overheat") == "returned-unacknowledged", $"overheat returns ({size})", TimeSpan.FromSeconds(30));
    }

    private static async Task ShakeAsync(FakedClock clock, Func<bool> goOn)
    {
        for (var sign = '+'; goOn(); sign = sign == '+' ? '-' : '+')
        {
            clock.Set($"{sign}0.25s");
            await Task.Delay(150, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>What was kept before is kept still, under the same label; readings from before the clock was right excepted, whose label is put right.</summary>
    private static async Task<IReadOnlyList<KeptReading>> KeptSoFarAsync(WatchedDaemon daemon, IReadOnlyList<KeptReading> before)
    {
        var now = await daemon.ReadAsync("one");
        var there = now.ToHashSet();
        Assert.DoesNotContain(before, reading => reading.Trusted && !there.Contains(reading));
        return now;
    }

    private static void HoldReadings(Studio studio, double taken, IReadOnlyList<KeptReading> kept)
    {
        var rows = StoreFile.Readings(studio.Data, "one-t");
        FaultFigures.AtMost(Campaign, $"{rows.Count} readings", "of those taken not kept", taken - rows.Count, 0);
        FaultFigures.AtMost(Campaign, $"{rows.Count} readings", "of those kept not exported", rows.Count - kept.Count(reading => reading.Probe == "one-t"), 0);
        FaultFigures.AtMost(Campaign, "by the monotonic clock, 5 Hz", "longest gap", rows.Zip(rows.Skip(1), (a, b) => (b.At - a.At).TotalSeconds).Max(), LongestGap, "s");
        var early = rows.Where(row => row.Label.Year == 1970).ToList();
        Assert.NotEmpty(early);
        FaultFigures.AtMost(Campaign, $"{early.Count} labels of 1970", "told as trusted", early.Count(row => row.Trusted), 0);
        FaultFigures.AtMost(Campaign, $"{rows.Count - early.Count} right labels", "doubted, until the clock is looked at", rows.Count(row => !row.Trusted) - early.Count, 15);
        Assert.Equal(kept.Count(reading => reading.Probe == "one-t"), kept.Where(reading => reading.Probe == "one-t").Select(reading => reading.Time).Distinct().Count());
        Assert.Equal(kept.OrderBy(reading => reading.Time).Select(reading => reading.Time), kept.Select(reading => reading.Time));
    }

    private static async Task HoldDrawingsAsync(Studio studio)
    {
        foreach (var ending in new[] { "png", "html" })
        {
            var file = Path.Combine(studio.Folder, $"night.{ending}");
            var (code, output, errors) = await VatWatchProcess.RunAsync(WatchedDaemon.Patience, "report", "--config", studio.Config, "--vat", "one", "--out", file);
            Assert.True(code == 0, output + errors);
            Assert.True(new FileInfo(file).Length > 5000, $"{file} has {new FileInfo(file).Length} bytes");
        }
    }

    private static async Task<string> StateAsync(WatchedDaemon daemon, string path, string alarm)
    {
        using var document = JsonDocument.Parse(await daemon.GetAsync(path));
        var alarms = document.RootElement.ValueKind == JsonValueKind.Array ? document.RootElement : document.RootElement.GetProperty("alarms");
        return alarms.EnumerateArray().Where(one => one.GetProperty("alarm").GetString() == alarm).Select(one => one.GetProperty("state").GetString()!).FirstOrDefault("none");
    }
}
