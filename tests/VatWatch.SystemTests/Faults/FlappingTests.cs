using System.Globalization;
using System.Text;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>A value that crosses its limit every second and a probe that comes and goes: messages and journal stay bounded.</summary>
[Trait("Campaign", "faults")]
public sealed class FlappingTests
{
    private static readonly string Alarms = """
        { "overheat": { "onDelay": "1 s", "offDelay": "1 s" }, "probe-silent": { "onDelay": "1 s", "offDelay": "1 s" }, "probe-fault": { "onDelay": "1 s", "offDelay": "1 s" } }
        """;

    /// <summary>
    /// With the usual settings: the alarm is entered once and stands, is told again every five minutes, and the forecast and the silence have their say.
    /// </summary>
    [Fact]
    public async Task An_hour_of_a_vat_at_its_limit_is_a_handful_of_alarm_changes()
    {
        var hours = FaultFigures.Size(1, 12);
        using var studio = new Studio();
        studio.WriteConfig(
            """ "sound": { "kind": "simulation", "start": "45 °C" } """,
            Studio.Vat("one", """
                { "id": "one-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "500 ms" },
                { "id": "one-ph", "measures": "ph", "bus": "sound", "driver": "simulated", "every": "500 ms" }
                """));
        var file = Path.Combine(studio.Folder, "flapping.csv");
        await File.WriteAllTextAsync(file, Recorded(hours), TestContext.Current.CancellationToken);
        var (code, output, errors) = await VatWatchProcess.RunAsync(TimeSpan.FromMinutes(5), "replay", file, "--config", studio.Config, "--vat", "one", "--json");
        Assert.True(code == 0, errors);
        var changes = output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Contains(changes, line => line.Contains("\"overheat\"", StringComparison.Ordinal));
        FaultFigures.AtMost("flapping, usual settings", $"{hours} h at 1 Hz", "alarm changes", changes.Length, 12 + 24 * hours);
    }

    /// <summary>With delays of a second, the shortest that a hurried dyer would set, and an instrument that is unplugged at every other second.</summary>
    [Fact]
    public async Task With_the_shortest_delays_the_flood_limit_bounds_what_is_told_and_kept()
    {
        var length = FaultFigures.Size(TimeSpan.FromSeconds(8), TimeSpan.FromMinutes(11));
        using var studio = new Studio();
        await using var instrument = await PtyInstrument.AskedAsync();
        studio.WriteConfig(
            $$"""
            "bench": { "kind": "serial", "port": "{{instrument.Port}}", "baud": 9600, "replyTimeout": "100 ms" }
            """,
            Studio.Vat("one", FaultProbes.Text("bench", "200 ms"), Alarms));
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(studio.MqttPort), "vatwatch/test-studio/+/notification");
        for (var second = 0; second < length.TotalSeconds; second++)
        {
            await instrument.TellAsync(second % 2 == 0 ? "set T 50" : "set T 45");
            await instrument.TellAsync(second % 4 < 2 ? "silent on" : "silent off");
            await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        }

        var minutes = length.TotalMinutes;
        var size = string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min at 1 Hz");
        var told = phone.Messages.Count(message => message.Topic.StartsWith("vatwatch/", StringComparison.Ordinal));

        // 10 in 10 min, then one that says so, one summary per 10 min, and each of two critical alarms at most every 2 minutes.
        FaultFigures.AtMost("flapping, delays of 1 s", size, "messages", told, 10 + 1 + Math.Ceiling(minutes / 10) + 2 * Math.Ceiling(minutes / 2) + Math.Floor(minutes / 10) * 10);
        Assert.NotEmpty(await daemon.StopAndReadAsync("one"));
        // Two critical alarms go in and out once in each cycle of four seconds, which is 60 a minute; the others are shelved when they chatter.
        var journal = StoreFile.Count(studio.Data, "alarm_change");
        FaultFigures.AtMost("flapping, delays of 1 s", size, "journal rows a minute", journal / Math.Max(1, minutes), 75);
        FaultFigures.AtMost("flapping, delays of 1 s", size, "lines of log a minute", daemon.Process.Output.Count(letter => letter == '\n') / Math.Max(1, minutes), 240);
    }

    /// <summary>The liquor is above its limit in each first half of a second and below in the other; the pH probe is there in every other second.</summary>
    private static string Recorded(int hours)
    {
        var lines = new StringBuilder("time,probe,value\n");
        var start = new DateTimeOffset(2026, 3, 1, 20, 0, 0, TimeSpan.Zero);
        for (var half = 0; half < hours * 7200; half++)
        {
            var time = start.AddMilliseconds(500.0 * half).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
            lines.Append(CultureInfo.InvariantCulture, $"{time},one-t,{(half % 2 == 0 ? 49.6 : 48.2)}\n");
            if (half % 4 < 2)
            {
                lines.Append(CultureInfo.InvariantCulture, $"{time},one-ph,{9.9 + half % 7 * 0.01:0.00}\n");
            }
        }

        return lines.ToString();
    }
}
