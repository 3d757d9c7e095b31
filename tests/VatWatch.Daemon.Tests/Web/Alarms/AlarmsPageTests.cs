using System.Net;
using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Daemon.Tests.Web.Vats;

namespace VatWatch.Daemon.Tests.Web.Alarms;

public sealed class AlarmsPageTests
{
    [Fact]
    public async Task Alarms_set_aside_are_listed_too()
    {
        var scenes = new Scenes().Ready();
        scenes.Feed.Vats = [scenes.Feed.Vats[0] with { Alarms = [scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Shelved, "Madder Lane vat is cold.", "Warm it.")] }];
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        Assert.Contains("No alarms. Set aside", VatsPageTests.Text(await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        Assert.Contains("cold : shelved for a time since", VatsPageTests.Text(await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        Assert.Contains("shelved for a time", VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        Assert.DoesNotContain("shelved", VatsPageTests.Text(await browser.GetStringAsync("/", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_told_again_is_one_line_of_the_log()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        var status = scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Unacknowledged, "Madder Lane vat is cold.", "Warm it.");
        for (var i = 0; i < 31; i++)
        {
            pages.History.Changes.Add(new(i == 30 ? AlarmState.Normal : AlarmState.Unacknowledged, status with { Text = $"Told {i}." }, scenes.Clock.Now().Plus(TimeSpan.FromMinutes(-5 * i)), null, true));
        }

        pages.History.Changes.Add(new(AlarmState.Unacknowledged, status with { State = AlarmState.Normal, Text = "Warm." }, scenes.Clock.Now().Plus(TimeSpan.FromHours(-3)), null, true));
        using var browser = pages.Browser();

        var text = VatsPageTests.Text(await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken));

        Assert.Matches("00:50 medium Madder Lane vat cold still on, not acknowledged; told 31 times, last 03:20 Told 0[.] 00:20 .*back to normal Warm[.]", text);
        Assert.DoesNotContain("Told 1.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_log_goes_back_page_by_page()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        for (var i = 0; i < 150; i++)
        {
            pages.History.Changes.Add(new(AlarmState.Normal,
                scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Unacknowledged, $"Change {i:000}.", "Warm it."), scenes.Clock.Now().Plus(TimeSpan.FromMinutes(-i)), null, true));
        }

        using var browser = pages.Browser();
        var newest = await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken);
        Assert.Contains("Change 099.", newest, StringComparison.Ordinal);
        Assert.DoesNotContain("Change 100.", newest, StringComparison.Ordinal);

        var older = Regex.Match(newest, "href=\"([^\"]*)\">Older").Groups[1].Value;
        var second = await browser.GetStringAsync(WebUtility.HtmlDecode(older), TestContext.Current.CancellationToken);
        Assert.Contains("Change 100.", second, StringComparison.Ordinal);
        Assert.Contains("Change 149.", second, StringComparison.Ordinal);
        Assert.DoesNotContain("Change 099.", second, StringComparison.Ordinal);
        Assert.DoesNotContain(">Older", second, StringComparison.Ordinal);
        Assert.Contains("The last seven days", newest, StringComparison.Ordinal);
        Assert.DoesNotContain("The last seven days", second, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Notes_and_who_did_what_by_which_way_stand_in_the_log()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        var status = scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Shelved, "Madder Lane vat is cold.", "Warm it.") with
        {
            SetAside = new("Bea", Scenes.Start, true, "heater is on order", Scenes.Start.AddHours(2)),
        };
        pages.History.Changes.Add(new(AlarmState.Unacknowledged, status, scenes.Clock.Now(), "Bea", false) { Via = "mqtt" });
        pages.History.Changes.Add(new(AlarmState.Shelved, status, scenes.Clock.Now(), "Ada", false) { Via = "verb", Note = "the <lid> was shut" });
        using var browser = pages.Browser();

        var text = VatsPageTests.Text(await browser.GetStringAsync("/alarms", TestContext.Current.CancellationToken));

        Assert.Contains("shelved for a time, by Bea by message: heater is on order", text, StringComparison.Ordinal);
        Assert.Contains("note by Ada on the command line the <lid> was shut", text, StringComparison.Ordinal);
    }
}
