using System.Diagnostics;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// A thermometer whose read never returns, as behind a hung kernel driver: its file is a pipe into which nobody writes. Through the built daemon, because
/// no I2C adapter can be made here; the limits and the thread of their own are those of I2C and SPI too.
/// </summary>
[Trait("Campaign", "faults")]
public sealed class StuckFileTests
{
    private const string Device = "28-0316a2797ac5";

    /// <summary>The kernel may take 8 s to answer; a read that never does is noticed within twice that.</summary>
    private const double Told = 17;

    private const double Back = 5;

    [Fact]
    public async Task A_read_that_never_returns_costs_its_own_vat_alone()
    {
        var times = FaultFigures.Size(1, 8);
        using var studio = new Studio();
        var folder = Path.Combine(studio.Folder, "w1", Device);
        Directory.CreateDirectory(folder);
        var file = Path.Combine(folder, "w1_slave");
        Answer(file);
        studio.WriteConfig(
            $$"""
            "wire": { "kind": "onewire", "root": "{{Path.Combine(studio.Folder, "w1")}}" },
            "sound": { "kind": "simulation", "start": "45 °C" }
            """,
            $$"""
            {{Studio.Vat("one", $$"""{ "id": "one-t", "measures": "temperature", "bus": "wire", "driver": "onewire", "every": "1 s", "settings": { "id": "{{Device}}" } }""")}},
            {{Studio.Vat("other", """{ "id": "sound-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "200 ms" }""")}}
            """);
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        await daemon.EventuallyAsync(async () => await daemon.MetricAsync("vatwatch_measurement_good") == 2, "both vats are read");
        var before = daemon.Evaluate();
        var (told, back) = (new List<double>(), new List<double>());
        for (var time = 0; time < times; time++)
        {
            File.Delete(file);
            await ToolRun.RequireAsync("mkfifo", [file]);
            var watch = Stopwatch.StartNew();
            await daemon.EventuallyAsync(async () => await GoodAsync(daemon) == 0, "the fault is told", TimeSpan.FromSeconds(30));
            told.Add(watch.Elapsed.TotalSeconds);

            // Opening and closing the other end lets go of whoever hangs in it.
            Answer(file + ".new");
            var stuck = file + ".stuck";
            File.Move(file, stuck);
            File.Move(file + ".new", file);
            watch.Restart();
            await Task.Run(() => File.OpenHandle(stuck, FileMode.Open, FileAccess.ReadWrite).Dispose(), TestContext.Current.CancellationToken);
            await daemon.EventuallyAsync(async () => await GoodAsync(daemon) == 1, "the value is back", TimeSpan.FromSeconds(30));
            back.Add(watch.Elapsed.TotalSeconds);
            File.Delete(stuck);
        }

        var size = $"{times} times";
        FaultFigures.AtMost("read that never returns", size, "told within", told.Max(), Told, "s");
        FaultFigures.AtMost("read that never returns", size, "back within", back.Max(), Back, "s");
        FaultFigures.AtMost("read that never returns", size, "threads more", daemon.Evaluate().Threads - before.Threads, 6);
        FaultFigures.AtMost("read that never returns", size, "files more", daemon.Evaluate().Files - before.Files, 2);
        var kept = await daemon.StopAndReadAsync("one");
        FaultFigures.AtMost("read that never returns", size, "values that are not the thermometer's", kept.Count(reading => reading.Value is not null and not 45), 0);
        var other = await daemon.ReadAsync("other");
        FaultFigures.AtMost("read that never returns", size, "longest gap of a probe on another bus at 5 Hz", KeptReading.LongestGap(other).TotalSeconds, 3, "s");
        Assert.All(other, reading => Assert.Equal("good", reading.Quality));
    }

    private static Task<double> GoodAsync(WatchedDaemon daemon) => daemon.MetricAsync("vatwatch_measurement_good", "probe=\"one-t\"");

    /// <summary>45.0 °C as the kernel shows it: 02D0 hexadecimal, in sixteenths; the last byte is the checksum of the others.</summary>
    private static void Answer(string file) => File.WriteAllText(file, "d0 02 4b 46 7f ff 10 10 9c : crc=9c YES\nd0 02 4b 46 7f ff 10 10 9c t=45000\n");
}
