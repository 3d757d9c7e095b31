using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Store;

namespace VatWatch.Benchmarks;

/// <summary>Ten people who look at a studio of 40 vats, a year of one of them stored: how long the page of all vats and the chart of that year take.</summary>
internal static class Viewers
{
    private const int Vats = 40;
    private const int People = 10;
    private const int Looks = 12;
    private const double LongestMilliseconds = 200;
    private static readonly TimeSpan Year = TimeSpan.FromDays(365);

    /// <summary>A year's chart is made from quarters of an hour, and as many of them come of this period as of a shorter one.</summary>
    private static readonly TimeSpan Every = TimeSpan.FromMinutes(5);

    /// <summary>A person reads between two looks.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Settle = TimeSpan.FromSeconds(10);

    public static async Task MeasureAsync(Table table)
    {
        using var studio = new BenchStudio();
        studio.WriteMany(4 * Vats);
        await FillAsync(studio.Data);
        using var daemon = ChildProcess.Start(Programs.Daemon, "run", "--config", studio.Config);
        await Task.Delay(Settle);
        var year = string.Create(CultureInfo.InvariantCulture, $"/api/vats/still-0/chart?from={DateTime.UtcNow - Year:yyyy-MM-ddTHH:mm:ss}Z&to={DateTime.UtcNow:yyyy-MM-ddTHH:mm:ss}Z");
        var seen = await Task.WhenAll(Enumerable.Range(0, People).Select(person => LookAsync(studio.Page, year, person)));
        Add("page of 40 vats", seen.SelectMany(one => one.Pages));
        Add("chart of a year", seen.SelectMany(one => one.Charts));

        void Add(string what, IEnumerable<double> times)
        {
            double[] sorted = [.. times.Order()];
            var slow = sorted[(int)(0.95 * sorted.Length)];
            table.Share(
                $"{what} with ten viewers, 95 of 100 within 200 ms",
                string.Create(CultureInfo.InvariantCulture, $"{slow:0} ms; half within {sorted[sorted.Length / 2]:0} ms"),
                slow / LongestMilliseconds,
                1);
        }
    }

    private static async Task<(List<double> Pages, List<double> Charts)> LookAsync(string page, string chart, int person)
    {
        using var client = new HttpClient { BaseAddress = new Uri(page) };
        var (pages, charts) = (new List<double>(), new List<double>());
        await Task.Delay(Pause * person / People);
        await TimeAsync(client, "/");
        await TimeAsync(client, chart);
        for (var look = 0; look < Looks; look++)
        {
            await Task.Delay(Pause);
            pages.Add(await TimeAsync(client, "/"));
            await Task.Delay(Pause);
            charts.Add(await TimeAsync(client, chart));
        }

        return (pages, charts);
    }

    private static async Task<double> TimeAsync(HttpClient client, string address)
    {
        var began = Stopwatch.GetTimestamp();
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative));
        answer.EnsureSuccessStatusCode();
        return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
    }

    private static async Task FillAsync(string folder)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { SizeLimitMegabytes = 1_000_000 }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        var start = DateTimeOffset.UtcNow - Year;
        Quantity[] measures = [Quantity.Temperature, Quantity.Ambient, Quantity.Ph, Quantity.Orp];
        double[] usual = [43, 18, 9.9, -690];
        for (var at = TimeSpan.Zero; at < Year; at += Every)
        {
            for (var probe = 0; probe < measures.Length; probe++)
            {
                var value = Math.Round(usual[probe] + Math.Sin(at.TotalHours / 5 + probe), 2);
                store.Enqueue(new(new VatId("still-0"), new ProbeId($"v0-{probe}"), measures[probe], new Stamp(start + at, at, true), value, value, Quality.Good, null, null));
            }

            if (at.Ticks % TimeSpan.FromDays(10).Ticks == 0)
            {
                await store.FlushAsync(CancellationToken.None);
            }
        }

        await store.FlushAsync(CancellationToken.None);
    }
}
