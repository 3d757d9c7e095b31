using VatWatch.Measurements;
using VatWatch.Testing;
using static VatWatch.Influx.Tests.CopyRig;

namespace VatWatch.Influx.Tests;

/// <summary>
/// Against Debian's victoria-metrics, a server by other people. It keeps milliseconds and numbers, so readings lie whole milliseconds apart here;
/// what lies closer and what is in words is checked on <see cref="RecordingInflux"/>.
/// </summary>
public sealed class RealServerTests
{
    private static readonly DateTimeOffset Start = new(new DateTime(DateTime.UtcNow.Ticks / TimeSpan.TicksPerSecond * TimeSpan.TicksPerSecond, DateTimeKind.Utc).AddDays(-1));

    [Fact]
    public async Task Every_reading_of_two_sites_is_there_once_with_its_value_after_kills_of_the_server()
    {
        await using var server = await VictoriaMetricsServer.StartAsync();
        await using var hill = new CopyRig(server.Url, "hill-studio", options => options with { Batch = 500 });
        await using var river = new CopyRig(server.Url, "river-yard", options => options with { Batch = 500 });
        hill.Start();
        river.Start();
        for (var round = 0; round < 3; round++)
        {
            await hill.OfferAsync(Stretch(round, 2000, 40));
            await river.OfferAsync(Stretch(round, 1000, 60));
            await server.KillAsync();
            await server.StartAgainAsync();
        }

        await CaughtUpAsync(hill);
        await CaughtUpAsync(river);
        // What the server said to have taken and lost with its own memory at a kill is sent again by hand, as a dyer would.
        foreach (var (rig, site) in new[] { (hill, "hill-studio"), (river, "river-yard") })
        {
            using var reader = rig.Store.OpenReader();
            await new InfluxBackfill(rig.Options, site, DisplayUnits.Us, TimeProvider.System).RunAsync(reader, Start, DateTimeOffset.MaxValue, (_, _) => { }, TestContext.Current.CancellationToken);
        }

        var series = await server.ExportAsync("vat_reading_value");
        Assert.Equal(2, series.Count);
        foreach (var (site, count, low) in new[] { ("hill-studio", 6000, 40.0), ("river-yard", 3000, 60.0) })
        {
            var (labels, samples) = Assert.Single(series, one => one.Labels["site"] == site);
            Assert.Equal(("madder-lane", "liquor", "temperature", "°C"), (labels["vat"], labels["probe"], labels["measures"], labels["unit"]));
            var byTime = samples.ToLookup(sample => sample.Milliseconds, sample => sample.Value);
            Assert.Equal(count, byTime.Count);
            Assert.All(byTime, time => Assert.Single(time.Distinct()));
            var wanted = Enumerable.Range(0, count).Select(number => (Start.ToUnixTimeMilliseconds() + 10 * number, Math.Round(low + number % 1000 / 100.0, 2)));
            Assert.Equal(wanted, byTime.Select(time => (time.Key, time.First())).Order());
        }
    }

    [Fact]
    public async Task Codes_flags_and_numbers_of_conditions_and_alarms_are_taken()
    {
        await using var server = await VictoriaMetricsServer.StartAsync();
        await using var rig = new CopyRig(server.Url);
        var now = (Start - Dusk).TotalSeconds;
        await rig.OfferAsync(Reading(now, null));
        await rig.KeepAsync(Change(now));
        await rig.KeepAsync(Condition(now));
        rig.Start();
        await CaughtUpAsync(rig);
        foreach (var (metric, value) in new[]
        {
            ("vat_reading_qualityCode", 2.0), ("vat_condition_temperatureC", 35.6), ("vat_condition_minutesToBand", 50), ("vat_alarm_value", 120.4), ("vat_alarm_active", 1),
        })
        {
            var (_, samples) = Assert.Single(await server.ExportAsync(metric));
            Assert.Equal((Start.ToUnixTimeMilliseconds(), value), Assert.Single(samples));
        }
    }

    private static IEnumerable<Measurement> Stretch(int round, int count, double low) => Enumerable.Range(round * count, count).Select(number => Reading(0, Math.Round(low + number % 1000 / 100.0, 2)) with
    {
        Stamp = new Stamp(Start.AddMilliseconds(10 * number), TimeSpan.FromMilliseconds(10 * number), true),
    });

    private static Task CaughtUpAsync(CopyRig rig) => Eventually.TrueAsync(
        () => rig.Forwarder.State is { Trouble: null, Waiting: 0 } state && state.Sent >= rig.Expected().Count, "the server has everything", TimeSpan.FromSeconds(60));
}
