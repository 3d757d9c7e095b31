using System.Net;
using VatWatch.Alarms;
using VatWatch.Daemon.Tests.Web.Vats;

namespace VatWatch.Daemon.Tests.Web.Alarms;

public sealed class AlarmPageTests
{
    [Fact]
    public async Task The_page_says_why_the_alarm_exists_and_what_may_be_done()
    {
        var scenes = new Scenes().Overheat();
        var overheat = scenes.Feed.Vats[0].Alarms[0] with { Stands = true, Rationale = new("A stuck thermostat.", "Scalding liquor.", "Unplug the heater.", "20 to 40 min") };
        scenes.Feed.Vats = [scenes.Feed.Vats[0] with { Alarms = [overheat] }, scenes.Feed.Vats[1]];
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        var html = await browser.GetStringAsync("/vats/madder-lane/alarms/overheat", TestContext.Current.CancellationToken);
        var text = VatsPageTests.Text(html);

        Assert.Contains("Usual cause A stuck thermostat. If nothing is done Scalding liquor. What to do Unplug the heater. Time to act 20 to 40 min", text, StringComparison.Ordinal);
        Assert.Equal(["note", "out-of-service", "shelve"], Acts(html));
        Assert.Contains("name=\"alarm\" value=\"madder-lane/overheat\"", html, StringComparison.Ordinal);
        Assert.Contains("Time to act: 20 to 40 min.", VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        Assert.DoesNotContain("http-equiv=\"refresh\"", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_shelved_alarm_says_by_whom_until_when_and_why_and_can_be_taken_back()
    {
        var scenes = new Scenes().Ready();
        scenes.Feed.Vats =
        [
            scenes.Feed.Vats[0] with
            {
                Alarms =
                [
                    scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Shelved, "Madder Lane vat is cold.", "Warm it.") with
                    {
                        SetAside = new("Ada", Scenes.Start.AddMinutes(-10), true, "heater is on order.", Scenes.Start.AddMinutes(50)),
                    },
                ],
            },
        ];
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        var html = await browser.GetStringAsync("/vats/madder-lane/alarms/cold", TestContext.Current.CancellationToken);

        Assert.Matches("Set aside by Ada at .*[0-9:]+ until .*[0-9:]+: heater is on order[.]", VatsPageTests.Text(html));
        Assert.Equal(["note", "out-of-service", "unshelve"], Acts(html));
        Assert.Contains("heater is on order.", VatsPageTests.Text(await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_alarm_that_is_back_to_normal_is_shown_from_the_log()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        pages.History.Changes.Add(new(AlarmState.Acknowledged, scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Normal, "Madder Lane vat is warm.", "Nothing to do."), scenes.Clock.Now(), null, true));
        using var browser = pages.Browser();

        var html = await browser.GetStringAsync("/vats/madder-lane/alarms/cold", TestContext.Current.CancellationToken);

        Assert.Contains("back to normal", VatsPageTests.Text(html), StringComparison.Ordinal);
        Assert.Equal(["note", "out-of-service"], Acts(html));
    }

    [Fact]
    public async Task An_alarm_nobody_knows_is_said()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync("/vats/madder-lane/alarms/no-such-alarm", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    private static IEnumerable<string> Acts(string html) =>
        System.Text.RegularExpressions.Regex.Matches(html, "action=\"/vats/madder-lane/alarms/[a-z-]+/([a-z-]+)\"").Select(match => match.Groups[1].Value).Order(StringComparer.Ordinal);
}
