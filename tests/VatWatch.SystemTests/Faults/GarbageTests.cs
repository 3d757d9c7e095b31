using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>An instrument that streams rubbish as fast as it is taken: memory stays bounded, and the other probes do not notice.</summary>
[Trait("Campaign", "faults")]
public sealed class GarbageTests
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(5);

    [Fact]
    public async Task Megabytes_of_garbage_on_one_port_cost_nothing_elsewhere()
    {
        var megabytes = FaultFigures.Size(1, 10);
        using var studio = new Studio();
        await using var stream = await PtyInstrument.StreamingAsync(0.2);
        studio.WriteConfig(
            $$"""
            "bench": { "kind": "serial", "port": "{{stream.Port}}", "baud": 9600 },
            "sound": { "kind": "simulation", "start": "45 °C" }
            """,
            $$"""
            {{Studio.Vat("one", """
                { "id": "one-t", "measures": "temperature", "bus": "bench", "driver": "text-line", "every": "200 ms",
                  "settings": { "pattern": "^(?<value>[-+0-9.]+),[-+0-9.]+,[-+0-9.]+$", "unit": "°C" } }
                """)}},
            {{Studio.Vat("other", """{ "id": "sound-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "200 ms" }""")}}
            """);
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        await daemon.EventuallyAsync(async () => await daemon.MetricAsync("vatwatch_measurement_good") == 2, "both vats are read");
        var before = daemon.Evaluate();

        var most = before.ResidentMegabytes;
        var flood = stream.TellAsync($"flood {megabytes * 1024 * 1024}", Limit);
        while (!flood.IsCompleted)
        {
            most = Math.Max(most, daemon.Evaluate().ResidentMegabytes);
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        await flood;
        await daemon.EventuallyAsync(async () => await daemon.MetricAsync("vatwatch_measurement_good") == 2, "the instrument is read again", TimeSpan.FromSeconds(5));
        var size = $"{megabytes} MB";
        FaultFigures.AtMost("garbage from a stream", size, "memory more, at its highest", most - before.ResidentMegabytes, 60, "MB");
        FaultFigures.AtMost("garbage from a stream", size, "files more", daemon.Evaluate().Files - before.Files, 2);
        var garbled = await daemon.StopAndReadAsync("one");
        var wrong = garbled.Count(reading => reading.Value is < 45 or > 46);
        FaultFigures.AtMost("garbage from a stream", size, "values made of it", wrong, 0);
        var other = await daemon.ReadAsync("other");
        FaultFigures.AtMost("garbage from a stream", size, "longest gap of another probe at 5 Hz", KeptReading.LongestGap(other).TotalSeconds, 3, "s");
        Assert.All(other, reading => Assert.Equal("good", reading.Quality));
    }
}
