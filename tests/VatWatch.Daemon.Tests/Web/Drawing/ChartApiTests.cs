using System.Net;
using System.Text.Json;
using VatWatch.Conditions.Heating;

namespace VatWatch.Daemon.Tests.Web.Drawing;

public sealed class ChartApiTests
{
    [Fact]
    public async Task A_warm_up_that_was_begun_has_its_corridor()
    {
        var scenes = new Scenes().Ready();
        var live = scenes.Feed.Vats![0];
        var warmUp = new WarmUp { Since = live.Condition.Stamp.Plus(-TimeSpan.FromMinutes(30)), WasEntered = true, StartC = 20, ExpectedRiseK = new(2, 3), RiseK = 2.5 };
        scenes.Feed.Vats = [live with { Condition = live.Condition with { WarmUp = warmUp } }];
        await using var pages = await RunningPages.StartAsync(scenes);
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
}
