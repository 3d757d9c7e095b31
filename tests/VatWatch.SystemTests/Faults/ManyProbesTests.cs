using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>200 probes at 10 Hz, some twenty times what a large studio has: no reading lost, every queue bounded, alarms on time.</summary>
[Trait("Campaign", "faults")]
[Trait("Runs", "alone")]
public sealed class ManyProbesTests
{
    private const int Vats = 20;
    private const int ProbesOfAVat = 10;
    private const int Hertz = 10;

    [Fact]
    public async Task Two_thousand_readings_a_second_are_all_kept_and_judged()
    {
        var length = FaultFigures.Size(TimeSpan.FromSeconds(3), TimeSpan.FromMinutes(1));
        using var studio = new Studio();
        studio.WriteConfig(
            string.Join(", ", Enumerable.Range(0, Vats).Select(vat => $$"""
                "bus-{{vat}}": { "kind": "simulation", "start": "{{(vat == 7 ? 55 : 45)}} °C", "thermostat": "45 °C", "seed": {{vat}} }
                """)),
            string.Join(", ", Enumerable.Range(0, Vats).Select(vat => Studio.Vat($"vat-{vat}", Probes(vat), """{ "overheat": { "onDelay": "2 s" }, "probe-disagrees": { "enabled": false } }"""))));
        var began = Stopwatch.StartNew();
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        await daemon.EventuallyAsync(async () => (await daemon.GetAsync("/api/vats/vat-7")).Contains("\"unacknowledged\"", StringComparison.Ordinal), "the hot vat's alarm is told", TimeSpan.FromSeconds(30));
        var (size, told) = ($"{Vats * ProbesOfAVat} probes at {Hertz} Hz", began.Elapsed.TotalSeconds);

        var (before, first, watch) = (daemon.Evaluate(), await BeatsAsync(daemon), Stopwatch.StartNew());
        await Task.Delay(length, TestContext.Current.CancellationToken);
        var (after, last, seconds) = (daemon.Evaluate(), await BeatsAsync(daemon), watch.Elapsed.TotalSeconds);
        var (rate, skipped) = ((last.Taken - first.Taken) / seconds, last.Skipped - first.Skipped);
        var unaccounted = Math.Abs((last.Taken - first.Taken + skipped) / (Vats * ProbesOfAVat * Hertz * seconds) - 1);
        var dropped = await daemon.MetricAsync("vatwatch_readings_dropped_total") + await daemon.MetricAsync("vatwatch_store_measurements_dropped_total");
        var waiting = await daemon.MetricAsync("vatwatch_store_buffered_measurements");
        var hot = JsonDocument.Parse(await daemon.GetAsync("/api/alarms")).RootElement.EnumerateArray()
            .Where(one => one.GetProperty("alarm").GetString() == "overheat").Select(one => one.GetProperty("vat").GetString());
        Assert.Equal(["vat-7"], hot);
        Assert.Equal(0, await daemon.Process.StopAsync(WatchedDaemon.Patience));

        var kept = StoreFile.Count(studio.Data, "measurement");
        FaultFigures.AtMost("many probes", size, "lost or dropped", Math.Max(0, last.Taken - kept) + dropped, 0);
        FaultFigures.AtMost("many probes", size, "waiting for the disk", waiting, 10_000, "readings");
        FaultFigures.AtMost("many probes", size, "start to alarm with an on-delay of 2 s", told, 30, "s");
        FaultFigures.AtMost("many probes", size, "memory", after.ResidentMegabytes, 400, "MB");
        FaultFigures.AtMost("many probes", size, "beats neither taken nor counted as left out", 100 * unaccounted, FaultFigures.Size(15, 3), "%");
        FaultFigures.Hold(
            "many probes", size,
            string.Create(CultureInfo.InvariantCulture, $"{rate:0} readings/s, {skipped:0} beats left out, {100 * (after.Processor - before.Processor) / (after.At - before.At):0} % of a core, {after.ResidentMegabytes:0} MB, {kept} kept"),
            FaultFigures.IsFull ? "75 % of 2000 readings/s" : "told",
            !FaultFigures.IsFull || rate >= 0.75 * Vats * ProbesOfAVat * Hertz);
    }

    /// <summary>Beats taken and beats left out so far.</summary>
    private static async Task<(double Taken, double Skipped)> BeatsAsync(WatchedDaemon daemon) =>
        (await daemon.MetricAsync("vatwatch_probe_samples_total"), await daemon.MetricAsync("vatwatch_probe_beats_skipped_total"));

    private static string Probes(int vat) => string.Join(", ", Enumerable.Range(0, ProbesOfAVat).Select(probe => $$"""
        { "id": "t-{{vat}}-{{probe}}", "measures": "{{(probe < 4 ? "temperature" : probe < 7 ? "ph" : "orp")}}", "bus": "bus-{{vat}}", "driver": "simulated", "every": "{{1000 / Hertz}} ms" }
        """));
}
