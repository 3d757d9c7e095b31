using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Benchmarks;

/// <summary>How long the report of a day of four probes every 5 s takes: 69,120 readings, conditions worked out, start of the program counted.</summary>
internal static class ReportTime
{
    private const int Rounds = 5;
    private const double BoundSeconds = 1;
    private const int Steps = 24 * 3600 / 5;
    private static readonly DateTimeOffset Start = new(2026, 3, 6, 18, 0, 0, TimeSpan.Zero);

    public static async Task MeasureAsync(Table table)
    {
        var folder = Directory.CreateTempSubdirectory("vatwatch-bench-report").FullName;
        try
        {
            var config = Path.Combine(folder, "vatwatch.json");
            await File.WriteAllTextAsync(config, Config);
            await FillAsync(folder);
            var seconds = Enumerable.Range(0, Rounds).Select(_ => Run(config, folder)).Order().ToArray()[Rounds / 2];
            table.Share(
                "report of a day, four probes every 5 s, seconds",
                string.Create(CultureInfo.InvariantCulture, $"{4 * Steps} readings, median of {Rounds}"),
                seconds,
                BoundSeconds);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static double Run(string config, string folder)
    {
        var start = new ProcessStartInfo(
            Programs.Daemon,
            ["report", "--vat", "madder-lane", "--config", config, "--data", folder, "--out", Path.Combine(folder, "day.html")])
        { RedirectStandardOutput = true };
        start.Environment.TryAdd("DOTNET_ROOT", "/usr/share/dotnet");
        var clock = Stopwatch.StartNew();
        using var process = Process.Start(start)!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? clock.Elapsed.TotalSeconds : throw new InvalidOperationException("the report could not be written");
    }

    private static async Task FillAsync(string folder)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(3650) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        using var stop = new CancellationTokenSource();
        var running = store.RunAsync(stop.Token);
        var random = new Random(1);
        for (var i = 0; i < Steps; i++)
        {
            var at = TimeSpan.FromSeconds(5 * i);
            void Enqueue(string probe, Quantity measures, double value, int decimals) => store.Enqueue(new Measurement(
                new VatId("madder-lane"), new ProbeId(probe), measures, new Stamp(Start + at, at, true), null, Math.Round(value + (random.NextDouble() - 0.5) * 0.1, decimals), Quality.Good, null, null));

            Enqueue("liquor", Quantity.Temperature, Math.Min(45, 18 + 8 * at.TotalHours) + Math.Sin(at.TotalHours), 2);
            Enqueue("room", Quantity.Ambient, 17 + Math.Sin(at.TotalHours / 4), 2);
            Enqueue("liquor-ph", Quantity.Ph, 10.2 - 0.02 * at.TotalHours, 2);
            Enqueue("liquor-orp", Quantity.Orp, -720 + 2 * at.TotalHours, 1);
        }

        await store.FlushAsync(CancellationToken.None);
        await stop.CancelAsync();
        await running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    private const string Config = """
        {
          "site": "bench", "display": "us", "data": "data",
          "buses": { "none": { "kind": "serial", "port": "/dev/vatwatch/none" } },
          "vats": [ {
            "id": "madder-lane", "name": "Madder Lane vat", "volume": "40 gal", "fibre": "protein", "reducer": "thiourea-dioxide",
            "temperature": { "low": "100 °F", "high": "118 °F", "limit": "120 °F" }, "ph": { "low": 9.5, "high": 10.5 },
            "orp": { "weak": "-660 mV", "oxidised": "-580 mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
            "probes": [
              { "id": "liquor", "measures": "temperature", "bus": "none", "driver": "text-line", "every": "5 s", "settings": { "pattern": "^(?<value>[-+0-9.]+)$", "unit": "°C" } },
              { "id": "room", "measures": "ambient", "bus": "none", "driver": "text-line", "every": "5 s", "settings": { "pattern": "^R(?<value>[-+0-9.]+)$", "unit": "°C" } },
              { "id": "liquor-ph", "measures": "ph", "bus": "none", "driver": "text-line", "every": "5 s", "settings": { "pattern": "^P(?<value>[-+0-9.]+)$", "unit": "pH" } },
              { "id": "liquor-orp", "measures": "orp", "bus": "none", "driver": "text-line", "every": "5 s", "settings": { "pattern": "^O(?<value>[-+0-9.]+)$", "unit": "mV" } }
            ]
          } ]
        }
        """;
}
