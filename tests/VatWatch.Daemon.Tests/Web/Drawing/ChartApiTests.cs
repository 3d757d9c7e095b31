using System.Net;
using System.Text.Json;
using VatWatch.Conditions.Heating;
using VatWatch.Daemon.Web.Drawing;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class ChartApiTests
{
    private static readonly DateTimeOffset Start = Scenes.Start.AddHours(-1);

    [Fact]
    public async Task Columns_come_in_the_dyers_units_with_breaks_bands_marks_and_words()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        var liquor = Scenes.Vat().Probes[0];
        pages.Charts.Traces = _ => new(
            Start,
            Scenes.Start,
            [new(liquor, [Column(0, 40, 41, 39.5, 42), Column(30, 45, 45, 45, 45) with { BreakBefore = true }])],
            [
                new(Start.AddMinutes(5), null, ChartMarkKind.DipIn, "I", "yarn in, by Ada"),
                new(Start.AddMinutes(9), Start.AddMinutes(12), ChartMarkKind.Alarm, "!", "high alarm redox-rising: <b>ORP</b> rises."),
            ]);
        using var browser = pages.Browser();

        using var json = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/chart?hours=1&width=300", TestContext.Current.CancellationToken));

        var trace = json.RootElement.GetProperty("traces")[0];
        Assert.Equal("°F", trace.GetProperty("unit").GetString());
        Assert.Equal([104, 113, 113.36], trace.GetProperty("first").EnumerateArray().Select(one => one.GetDouble()));
        Assert.Equal([103.1, 113, 113.36], trace.GetProperty("min").EnumerateArray().Select(one => one.GetDouble()));
        Assert.Equal([1], trace.GetProperty("breaks").EnumerateArray().Select(one => one.GetInt32()));
        Assert.Equal(Scenes.Start.AddSeconds(-3).ToUnixTimeMilliseconds(), trace.GetProperty("start")[2].GetInt64());
        Assert.Equal(Start.ToUnixTimeMilliseconds(), trace.GetProperty("start")[0].GetInt64());
        Assert.Equal(60_000, trace.GetProperty("width").GetInt64());
        Assert.Equal(["temperature", "ph", "orp"], json.RootElement.GetProperty("bands").EnumerateArray().Select(one => one.GetProperty("measures").GetString()));
        Assert.Equal(120.2, json.RootElement.GetProperty("bands")[0].GetProperty("limit").GetDouble(), 1e-9);
        Assert.Equal(["dip-in", "alarm"], json.RootElement.GetProperty("marks").EnumerateArray().Select(one => one.GetProperty("kind").GetString()));
        Assert.Equal("02:25: yarn in, by Ada", json.RootElement.GetProperty("marks")[0].GetProperty("text").GetString());
        Assert.Equal("02:20 to 03:20: Liquor 103.1 °F to 113.0 °F, 113.0 °F at the end, broken once. 1 alarm, 1 dip.", json.RootElement.GetProperty("summary").GetString());
        Assert.Equal(JsonValueKind.Null, json.RootElement.GetProperty("forecast").ValueKind);
    }

    [Fact]
    public async Task A_warm_up_that_was_begun_has_its_corridor()
    {
        var scenes = new Scenes().Ready();
        var live = scenes.Feed.Vats![0];
        var warmUp = new WarmUp { Since = live.Condition.Stamp.Plus(-TimeSpan.FromMinutes(30)), WasEntered = true, StartC = 20, ExpectedRiseK = new(2, 3), RiseK = 2.5 };
        scenes.Feed.Vats = [live with { Condition = live.Condition with { WarmUp = warmUp } }];
        await using var pages = await RunningPages.StartAsync(scenes);
        pages.Charts.Traces = _ => new(Start, Scenes.Start, [], []);
        using var browser = pages.Browser();

        using var json = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/chart?hours=1&width=300", TestContext.Current.CancellationToken));

        var corridor = json.RootElement.GetProperty("corridor");
        Assert.Equal(warmUp.Since.Utc.ToUnixTimeMilliseconds(), corridor.GetProperty("at")[0].GetInt64());
        Assert.Equal(68, corridor.GetProperty("low")[0].GetDouble());
        Assert.Equal(corridor.GetProperty("at").GetArrayLength(), corridor.GetProperty("high").GetArrayLength());
    }

    [Theory]
    [InlineData("?hours=0")]
    [InlineData("?range=week")]
    [InlineData("?from=2026-03-04T03:20:00Z")]
    [InlineData("?from=yesterday&to=today")]
    [InlineData("?from=2026-03-04T03:20:00Z&to=2026-03-04T03:20:05Z")]
    [InlineData("?from=2024-03-04T03:20:00Z&to=2026-03-04T03:20:05Z")]
    [InlineData("?hours=8&width=9")]
    [InlineData("?hours=8&width=100000")]
    public async Task A_stretch_or_width_that_cannot_be_drawn_is_refused_in_a_sentence(string query)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/api/vats/madder-lane/chart" + query, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains("wanted hours=1 to 168", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_vat_that_is_not_configured_is_not_found()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/api/vats/typo/chart", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    private static Store.Series.MeasurementColumn Column(int minute, double first, double last, double min, double max) =>
        new(Start.AddMinutes(minute), Start.AddMinutes(minute + 1), first, last, min, max, (min + max) / 2, 12, Quality.Good, false);
}
