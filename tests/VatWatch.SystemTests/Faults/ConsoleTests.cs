using System.Diagnostics;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>A console that nobody reads: a terminal that was halted, a pager, a journal that is stuck.</summary>
[Trait("Campaign", "faults")]
public sealed class ConsoleTests
{
    /// <summary>Runs the daemon with a full pipe as its standard output, whose reading end stays open. 1031 is F_SETPIPE_SZ of fcntl(2).</summary>
    private const string Unread = """
        import fcntl, os, sys
        far, near = os.pipe()
        fcntl.fcntl(near, 1031, 4096)
        os.set_blocking(near, False)
        os.write(near, b"." * 4096)
        os.set_blocking(near, True)
        os.set_inheritable(far, True)
        os.dup2(near, 1)
        os.execv(sys.argv[1], sys.argv[1:])
        """;

    [Fact]
    public async Task A_console_that_nobody_reads_keeps_no_reading_and_no_alarm_waiting()
    {
        using var studio = new Studio();
        await using var instrument = await PtyInstrument.AskedAsync();
        studio.WriteConfig(
            $$"""
            "bench": { "kind": "serial", "port": "{{instrument.Port}}", "baud": 9600 }
            """,
            Studio.Vat("one", FaultProbes.Text("bench", "200 ms"), """{ "overheat": { "onDelay": "1 s" } }"""));
        await using var process = VatWatchProcess.StartOther(
            "/usr/bin/python3", new Dictionary<string, string>(), "-c", Unread, VatWatchProcess.Binary, "run", "--config", studio.Config);
        using var visitor = new HttpClient { BaseAddress = new(studio.Url) };
        await ReadsAsync(visitor, picture => picture.Contains("45.2", StringComparison.Ordinal), "the vat is read");

        await instrument.TellAsync("set T 50");
        var watch = Stopwatch.StartNew();
        await ReadsAsync(visitor, picture => StateOf(picture, "overheat") == "unacknowledged", "the alarm is told");
        FaultFigures.AtMost("console unread", "from the first line on", "alarm with an on-delay of 1 s after", watch.Elapsed.TotalSeconds, 4, "s");
        watch.Restart();
        Assert.Equal(0, await process.StopAsync(WatchedDaemon.Patience));
        FaultFigures.AtMost("console unread", "from the first line on", "stopped within", watch.Elapsed.TotalSeconds, 10, "s");
    }

    private static async Task ReadsAsync(HttpClient visitor, Func<string, bool> condition, string what)
    {
        for (var watch = Stopwatch.StartNew(); ;)
        {
            try
            {
                if (condition(await visitor.GetStringAsync("/api/vats/one", TestContext.Current.CancellationToken)))
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(20), $"did not happen: {what}");
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }

    private static string? StateOf(string picture, string alarm)
    {
        using var document = JsonDocument.Parse(picture);
        return document.RootElement.GetProperty("alarms").EnumerateArray().Where(one => one.GetProperty("alarm").GetString() == alarm)
            .Select(one => one.GetProperty("state").GetString()).FirstOrDefault();
    }
}
