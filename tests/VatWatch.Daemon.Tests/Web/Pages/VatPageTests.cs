using System.Net;
using VatWatch.Alarms;

namespace VatWatch.Daemon.Tests.Web.Pages;

public sealed class VatPageTests
{
    [Fact]
    public async Task The_page_of_a_vat_shows_reasons_advice_probes_setup_and_log()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        pages.History.Changes.Add(new(AlarmState.Unacknowledged,
            scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Normal, "Madder Lane vat is warm again.", ""), scenes.Clock.Now().Plus(TimeSpan.FromHours(-2)), null, true));
        using var browser = pages.Browser();

        var text = VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken));

        Assert.Contains("ORP has been steady for 40 min.", text, StringComparison.Ordinal);
        Assert.Contains("What to do now Dye.", text, StringComparison.Ordinal);
        Assert.Contains("madder-lane-heater Heater on good", text, StringComparison.Ordinal);
        Assert.Contains("Room 63.5 °F", text, StringComparison.Ordinal);
        Assert.Contains("40.0 gal. Working band 100.4 °F to 118.4 °F, limit 120.2 °F. pH 9.5 to 10.5. Weak above -660 mV, oxidised above -580 mV against Ag/AgCl 3 M KCl.", text, StringComparison.Ordinal);
        Assert.Contains("cold back to normal Madder Lane vat is warm again.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_vat_that_is_not_configured_is_not_found()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/vats/daemon", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    [Fact]
    public async Task A_store_that_hangs_costs_only_the_log()
    {
        var time = new Microsoft.Extensions.Time.Testing.FakeTimeProvider();
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), time: time);
        pages.History.Hangs = true;
        using var browser = pages.Browser();

        var reply = browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken);
        while (!reply.IsCompleted)
        {
            time.Advance(TimeSpan.FromSeconds(1));
            await Task.WhenAny(reply, Task.Delay(20, TestContext.Current.CancellationToken));
        }

        var text = VatsPageTests.Text(await reply);
        Assert.Contains("The log could not be read just now", text, StringComparison.Ordinal);
        Assert.Contains("113.4 °F", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", 8, false)]
    [InlineData("?hours=24&look=dark", 24, true)]
    [InlineData("?hours=100000", 8, false)]
    [InlineData("?hours=-1", 8, false)]
    public async Task The_chart_is_drawn_for_the_asked_hours_and_look(string query, int hours, bool dark)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/vats/madder-lane/chart.svg" + query, TestContext.Current.CancellationToken);

        Assert.Equal("image/svg+xml", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains("sandbox", Assert.Single(reply.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.Equal((new("madder-lane"), TimeSpan.FromHours(hours), dark), Assert.Single(pages.Charts.Asked));
    }

    [Fact]
    public async Task A_chart_of_an_unknown_vat_is_not_found()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/vats/typo/chart.svg", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }
}
