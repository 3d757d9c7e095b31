using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>Ten people look at a store of a year, each with a page that follows the events and with charts of all lengths: measuring keeps its cadence.</summary>
[Trait("Campaign", "faults")]
[Trait("Runs", "alone")]
public sealed class ViewersTests
{
    private const int Viewers = 10;
    private const int Period = 30;

    private static readonly int Days = FaultFigures.Size(20, 365);
    private static readonly TimeSpan Length = FaultFigures.Size(TimeSpan.FromSeconds(4), TimeSpan.FromSeconds(60));

    /// <summary>A person waits for a page; ten at once on two processors that others use too wait longer.</summary>
    private static readonly double MostSecondsToAnswer = FaultFigures.Size(30, 5);

    private const double MostAnswerMegabytes = 1;
    private static readonly double MostGapSeconds = FaultFigures.Size(5, 1);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Ten_viewers_of_a_year_neither_slow_the_measuring_nor_wait_without_bound()
    {
        using var studio = new Studio();
        await FillAsync(studio.Data);
        await using var night = await Night.StartAsync(studio);
        var began = DateTimeOffset.UtcNow;
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        var looking = Enumerable.Range(0, Viewers).Select(viewer => LookAsync(studio.Url, viewer, stop.Token)).ToList();
        stop.CancelAfter(Length);
        var looks = (await Task.WhenAll(looking)).SelectMany(one => one).ToList();
        var ended = DateTimeOffset.UtcNow;
        Assert.Equal(0, await night.Watch.StopAsync(Patience));

        var size = $"{Viewers} viewers, {Days} days, {Length.TotalSeconds:0} s";
        using var record = new StoredRecord(studio.Data);
        Assert.Empty(night.Shown.MissingFrom(record));
        var times = record.Readings().Where(reading => reading.Probe == "liquor").Select(reading => reading.Milliseconds)
            .Where(time => time > began.ToUnixTimeMilliseconds() && time < ended.ToUnixTimeMilliseconds()).ToList();
        var gaps = times.Zip(times.Skip(1), (a, b) => (b - a) / 1000.0).Order().ToList();
        var seconds = looks.Select(look => look.Seconds).Order().ToList();
        FaultFigures.AtLeast("year of history", size, "answers", looks.Count, Viewers);
        FaultFigures.AtMost("year of history", size, $"answers in {seconds[seconds.Count / 2]:0.00} s at the median, slowest", seconds[^1], MostSecondsToAnswer, "s");
        FaultFigures.AtMost("year of history", size, "largest answer", looks.Max(look => look.Bytes) / 1048576.0, MostAnswerMegabytes, "MB");
        FaultFigures.AtMost("year of history", size, $"readings every 0.1 s: gaps of {gaps[gaps.Count / 2]:0.00} s at the median, {gaps[(int)(gaps.Count * 0.99)]:0.00} s at the 99th percentile, longest", gaps[^1], MostGapSeconds, "s");
    }

    /// <summary>One viewer: follows the events, and asks for one chart or page after the other with a second in between.</summary>
    private static async Task<List<(double Seconds, long Bytes)>> LookAsync(string url, int viewer, CancellationToken stop)
    {
        using var browser = new HttpClient { BaseAddress = new(url), Timeout = Patience };
        using var events = new StreamReader(await browser.GetStreamAsync("/api/events", TestContext.Current.CancellationToken));
        var following = FollowAsync(events, stop);
        var random = new Random(viewer);
        var looks = new List<(double, long)>();
        while (!stop.IsCancellationRequested)
        {
            var days = Math.Pow(Days, random.NextDouble());
            var to = DateTimeOffset.UtcNow.AddDays(-random.NextDouble() * (Days - days));
            var path = random.Next(4) == 0 ? "/vats/weld-yard" : string.Create(
                CultureInfo.InvariantCulture, $"/api/vats/weld-yard/chart?from={to.AddDays(-days):yyyy-MM-ddTHH:mm:ssZ}&to={to:yyyy-MM-ddTHH:mm:ssZ}&width=1200");
            var watch = Stopwatch.StartNew();
            using var reply = await browser.GetAsync(path, TestContext.Current.CancellationToken);
            var bytes = await reply.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
            Assert.True(reply.IsSuccessStatusCode, $"{path} answered {reply.StatusCode}");
            looks.Add((watch.Elapsed.TotalSeconds, bytes.Length));
            await Task.Delay(TimeSpan.FromSeconds(1), stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        Assert.True(await following > 0, "events came");
        return looks;
    }

    /// <returns>How many measurements came.</returns>
    private static async Task<int> FollowAsync(StreamReader events, CancellationToken stop)
    {
        var came = 0;
        try
        {
            while (await events.ReadLineAsync(stop) is { } line)
            {
                came += line == "event: measurement" ? 1 : 0;
            }
        }
        catch (OperationCanceledException)
        {
            // The viewer goes.
        }

        return came;
    }

    private static async Task FillAsync(string folder)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { SizeLimitMegabytes = 1_000_000 }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        var start = DateTimeOffset.UtcNow.AddDays(-Days);
        (string Id, Quantity What, double Value)[] probes = [("liquor", Quantity.Temperature, 45), ("liquor-ph", Quantity.Ph, 10), ("liquor-orp", Quantity.Orp, -700)];
        for (var number = 0; number < Days * 86_400 / Period; number++)
        {
            var at = TimeSpan.FromSeconds(number * Period);
            foreach (var (id, what, middle) in probes)
            {
                var value = Math.Round(middle + number % 1009 / 1000.0, 2);
                store.Enqueue(new Measurement(new VatId("weld-yard"), new ProbeId(id), what, new Stamp(start + at, at, true), value, value, Quality.Good, null, null));
            }

            if (number % 5000 == 4999)
            {
                await store.FlushAsync(TestContext.Current.CancellationToken);
            }
        }
    }
}
