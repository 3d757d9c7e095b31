using System.Net;
using System.Text.RegularExpressions;
using VatWatch.Alarms;

namespace VatWatch.Daemon.Tests.Web.Bedside;

public sealed partial class BedsidePagesTests
{
    [Fact]
    public async Task It_shows_every_vat_and_says_without_script_that_it_has_no_sound()
    {
        var html = await HtmlAsync(new Scenes().Ready(), "/bedside");
        Assert.Contains("113.4", html, StringComparison.Ordinal);
        Assert.Contains("North tub", html, StringComparison.Ordinal);
        Assert.Matches("<noscript><meta http-equiv=\"refresh\" content=\"20\"></noscript>", html);
        Assert.Contains("This page has no sound here", html, StringComparison.Ordinal);
        Assert.DoesNotContain("data-calls", html, StringComparison.Ordinal);
        Assert.DoesNotContain("data-blind", html, StringComparison.Ordinal);
        Assert.InRange(html.Length, 1, 40_000);
    }

    [Theory]
    [InlineData("critical", 1)]
    [InlineData("high", 2)]
    [InlineData("", 2)]
    [InlineData("no such priority", 2)]
    public async Task What_nobody_has_acknowledged_calls_from_the_chosen_priority_on(string sound, int calls)
    {
        var scenes = new Scenes().Overheat();
        scenes.Feed.DaemonAlarms =
        [
            scenes.Alarm("broker-lost", AlarmPriority.High, AlarmState.Unacknowledged, "The message broker cannot be reached; phones are not told.", "Check the network.") with { Vat = VatId.Daemon },
        ];

        var html = await HtmlAsync(scenes, $"/bedside?sound={sound}");

        Assert.Equal(calls, Calls().Count(html));
        Assert.Contains("data-calls=\"critical\" data-alarm=\"alarm-madder-lane-overheat\"", html, StringComparison.Ordinal);
        Assert.Contains("formaction=\"/vats/madder-lane/alarms/overheat/acknowledge\"", html, StringComparison.Ordinal);
        Assert.Contains("Switch the heater off at the plug now.", html, StringComparison.Ordinal);
        Assert.Contains("acknowledged by Ada", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_vat_is_shown_alone_and_another_is_not_known()
    {
        var html = await HtmlAsync(new Scenes().Overheat(), "/bedside?vat=north-tub");
        Assert.Contains("North tub", html, StringComparison.Ordinal);
        Assert.DoesNotContain("121.3", html, StringComparison.Ordinal);
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync(new Uri("/bedside?vat=typo", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    [Fact]
    public async Task Readings_that_stand_still_count_as_no_contact_for_the_script() =>
        Assert.Contains("data-blind=\"yes\"", await HtmlAsync(new Scenes().Old(), "/bedside"), StringComparison.Ordinal);

    private static async Task<string> HtmlAsync(Scenes scenes, string path)
    {
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        return WebUtility.HtmlDecode(await browser.GetStringAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken));
    }

    [GeneratedRegex("data-calls=")]
    private static partial Regex Calls();
}
