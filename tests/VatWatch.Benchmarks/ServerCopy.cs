using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Influx;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>How fast a copy catches up after an outage: from the store through the compressed request to a server on loopback that keeps every point.</summary>
internal static class ServerCopy
{
    private const int Points = 200_000;

    /// <summary>Points a second that a catch-up must reach: a day of 20 probes read every 5 s in little more than a minute.</summary>
    private const double Wanted = 5000;

    public static async Task MeasureAsync(Table table)
    {
        var folder = Directory.CreateTempSubdirectory("vatwatch-copy-").FullName;
        await using var server = await RecordingInflux.StartAsync();
        await using (var store = WatchStore.Open(folder, new StoreOptions { BufferedMeasurements = 2 * Points }, TimeProvider.System, NullLogger<WatchStore>.Instance))
        {
            await FillAsync(store);
            var token = Path.Combine(folder, "token");
            File.WriteAllText(token, "bench");
            var options = new InfluxOptions { Url = new Uri(server.Url), Org = "studio", Bucket = "vats", TokenFile = token };
            var forwarder = new InfluxForwarder(store, options, "hill-studio", DisplayUnits.Us, TimeProvider.System, NullLogger<InfluxForwarder>.Instance);
            using var stop = new CancellationTokenSource();
            var watch = Stopwatch.StartNew();
            var running = forwarder.RunAsync(stop.Token);
            await Eventually.TrueAsync(() => server.Points.Count == Points, "every point is there", TimeSpan.FromMinutes(5));
            var rate = Points / watch.Elapsed.TotalSeconds;
            await stop.CancelAsync();
            await Task.WhenAny(running);
            table.Share("Copy to a server: 5000 points/s of what it catches up with", string.Create(CultureInfo.InvariantCulture, $"{rate:0} points/s"), Wanted / rate, 1);
        }

        Directory.Delete(folder, recursive: true);
    }

    private static async Task FillAsync(WatchStore store)
    {
        var start = new DateTimeOffset(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);
        for (var number = 0; number < Points; number++)
        {
            var at = TimeSpan.FromSeconds(5 * (number / 20));
            var value = 40 + number % 977 / 100.0;
            store.Enqueue(new Measurement(
                new VatId("madder-lane"), new ProbeId($"liquor-{number % 20}"), Quantity.Temperature, new Stamp(start + at, at, true), value, value, Quality.Good, null, null));
        }

        await store.FlushAsync(CancellationToken.None);
    }
}
