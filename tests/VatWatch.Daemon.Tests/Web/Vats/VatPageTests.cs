using System.Net;
using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Daemon.Tests.Web.Vats;

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
        Assert.Contains("40.0 gal. Working band 100.4 °F to 118.4 °F, limit 120.2 °F. pH 9.5 to 10.5. Weak above −660 mV, oxidised above −580 mV against Ag/AgCl 3 M KCl.", text, StringComparison.Ordinal);
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
    [InlineData("", "19:20", false)]
    [InlineData("?hours=2&look=dark", "01:20", true)]
    [InlineData("?hours=100000", "19:20", false)]
    [InlineData("?hours=-1", "19:20", false)]
    public async Task The_picture_is_drawn_for_the_asked_hours_and_look(string query, string from, bool dark)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/vats/madder-lane/chart.svg" + query, TestContext.Current.CancellationToken);

        Assert.Equal("image/svg+xml", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains("sandbox", Assert.Single(reply.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        var svg = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains(from, svg, StringComparison.Ordinal);
        Assert.Equal(dark, svg.Contains("#141929", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task What_was_worked_out_is_told_with_its_uncertainty()
    {
        var scenes = new Scenes().Warming();
        scenes.Feed.Vats = [.. scenes.Feed.Vats.Select(live => live with
        {
            Condition = live.Condition with
            {
                TemperatureRateSigmaKPerHour = 0.2,
                NoTimeToLimit = "the thermostat has switched off at 112.0 °F before",
                Margin = new(-142, 30, -652, -510, 0.993, true),
                FromGoodDays = new(12, 1.4, -0.05, -0.3),
                Recoveries = [new(scenes.Clock.Now().Plus(TimeSpan.FromMinutes(-50)), -712, 60, TimeSpan.FromMinutes(14), 3)],
                Diagnoses = [new(DiagnosisKind.LosingHeat, "The vat loses 40 % more heat than it used to: is the lid on?")],
            },
        })];
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        var text = VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken));

        Assert.Contains("The vat loses 40 % more heat than it used to: is the lid on?", text, StringComparison.Ordinal);
        Assert.Contains("Time to the limit None: the thermostat has switched off at 112.0 °F before.", text, StringComparison.Ordinal);
        Assert.Contains("Liquor warms by 6.8 ± 0.6 °F/h", text, StringComparison.Ordinal);
        Assert.Contains("−142 ± 30 mV, at pH 10.02 and 93.4 °F", text, StringComparison.Ordinal);
        Assert.Contains("An index to follow, not an assay. Outside what the sources vouch for.", text, StringComparison.Ordinal);
        Assert.Contains("ORP +12 mV (1.4 times their spread, weaker than on its good days)", text, StringComparison.Ordinal);
        Assert.Contains("Recovery, 02:30 from −712 mV up by 60 mV, back after 14 min, 3 mV short of where it was", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stretch_that_cannot_be_read_is_said_and_the_usual_one_shown()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        var html = await browser.GetStringAsync("/vats/madder-lane?from=2026-03-04T03:20&to=2026-03-04T01:00", TestContext.Current.CancellationToken);

        Assert.Contains("The stretch asked for could not be read", html, StringComparison.Ordinal);
        Assert.Contains("data-query=\"hours=8\"", html, StringComparison.Ordinal);
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
