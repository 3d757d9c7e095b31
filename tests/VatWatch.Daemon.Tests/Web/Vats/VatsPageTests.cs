using System.Net;
using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Daemon.Web;

namespace VatWatch.Daemon.Tests.Web.Vats;

public sealed partial class VatsPageTests
{
    [Fact]
    public async Task A_ready_vat_shows_state_reason_numbers_ages_quality_and_trend_in_words()
    {
        var text = await RunningPages.TextAsync(new Scenes().Ready());

        Assert.Contains("Madder Lane vat", text, StringComparison.Ordinal);
        Assert.Contains("ready Dye.", text, StringComparison.Ordinal);
        Assert.Contains("Liquor 113.4 °F → steady good · 3 s ago", text, StringComparison.Ordinal);
        Assert.Contains("pH 9.98 good · 6 s ago", text, StringComparison.Ordinal);
        Assert.Contains("ORP −671 mV ↘ falling 38 mV/h, gaining reduction good · 8 s ago", text, StringComparison.Ordinal);
        Assert.Contains("No alarms.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_forecast_is_a_range_and_counts_from_now()
    {
        var scenes = new Scenes().Warming();
        scenes.Time.Advance(TimeSpan.FromSeconds(9));

        var text = await RunningPages.TextAsync(scenes);

        // 55 min and 81 min, worked out 12 s ago, clock at 03:20:09 UTC.
        Assert.Matches(@"Enters the working band in 54 min to 1 h 20 min \(\d\d:\d\d to \d\d:\d\d\)\.", text);
    }

    [Fact]
    public async Task A_limit_that_may_never_be_reached_says_so() =>
        Assert.Matches(@"Reaches the limit of 120\.2 °F in 1 h 34 min at the earliest \(\d\d:\d\d\), or never\.", await RunningPages.TextAsync(new Scenes().Overheat()));

    [Fact]
    public async Task The_vat_in_trouble_comes_first_with_what_to_do_its_worst_alarm_and_one_button()
    {
        var scenes = new Scenes().Overheat();
        scenes.Feed.Vats = [scenes.Feed.Vats[1], scenes.Feed.Vats[0]];

        var html = await RunningPages.HtmlAsync(scenes);
        var text = Text(html);

        string[] inOrder =
        [
            "Madder Lane vat Liquor 121.3 °F too hot Switch the heater off at the plug now.",
            "liquor is 121.3 °F, limit 120.2 °F. critical since 03:08", "Acknowledge overheat of Madder Lane vat",
            "North tub Liquor 111.4 °F ready Dye. Switch the heater off by 04:54.",
            "1 more alarm", "ORP rises 26 mV/h", "high since 03:08 · acknowledged by Ada at 03:11",
        ];
        Assert.Equal(inOrder.Order(Comparer<string>.Create((one, other) => text.IndexOf(one, StringComparison.Ordinal) - text.IndexOf(other, StringComparison.Ordinal))), inOrder);
        Assert.All(inOrder, one => Assert.Contains(one, text, StringComparison.Ordinal));
        Assert.Single(AcknowledgePattern().Matches(html));
    }

    [Fact]
    public async Task What_is_over_is_one_line_and_acknowledged_together()
    {
        var scenes = new Scenes().Ready();
        scenes.Feed.Vats =
        [
            scenes.Feed.Vats[0] with
            {
                Alarms =
                [
                    scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.ReturnedUnacknowledged, "Madder Lane vat is warm.", "Check."),
                    scenes.Alarm("redox-rising", AlarmPriority.High, AlarmState.Latched, "Madder Lane vat is steady.", "Check."),
                ],
            },
        ];
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        var text = Text(await browser.GetStringAsync("/", TestContext.Current.CancellationToken));

        Assert.Matches("2 alarms are over: redox-rising, Madder Lane vat ?, cold, Madder Lane vat ?. Check the vat, then acknowledge. Your name Acknowledge all 2", text);
        using var reply = await Forms.SubmitAsync(browser, "/", "/alarms/acknowledge", ("by", "Ada"), ("alarm", "madder-lane/redox-rising madder-lane/cold"));
        Assert.Equal(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.Equal(["cold", "redox-rising"], pages.Desk.Taken.Select(act => act.Alarm.Value).Order(StringComparer.Ordinal));
        Assert.Contains("Acknowledged as Ada", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hot_liquor_brings_a_scald_caution_and_warm_liquor_does_not()
    {
        // 49.6 °C, between 8 min at 49 °C and 2 min at 51 °C to a burn (Moritz and Henriques 1947).
        Assert.Contains("burns bare skin in about 5 minutes", await RunningPages.TextAsync(new Scenes().Overheat()), StringComparison.Ordinal);
        Assert.DoesNotContain("burns bare skin", await RunningPages.TextAsync(new Scenes().Warming()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Old_numbers_are_called_old_and_the_state_unknown()
    {
        var text = await RunningPages.TextAsync(new Scenes().Old());

        Assert.Contains("Old: no new reading for 14 min.", text, StringComparison.Ordinal);
        Assert.Contains("old: 14 min ago", text, StringComparison.Ordinal);
        Assert.Contains("unknown", text, StringComparison.Ordinal);
        Assert.DoesNotContain("In the band, reduced and alkaline.", text, StringComparison.Ordinal);
        Assert.Contains("Temperature unknown: switch the heater off at the plug and look at the vat.", text, StringComparison.Ordinal);
        Assert.Contains("burns bare skin", text, StringComparison.Ordinal);
        Assert.DoesNotContain("No alarms.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_silent_probe_shows_no_number_but_its_reason()
    {
        var text = await RunningPages.TextAsync(new Scenes().ProbeSilent());

        Assert.Contains("Liquor — No reading. Is the probe plugged in?", text, StringComparison.Ordinal);
        Assert.Contains("pH 10.05 doubtful: flat for 30 min", text, StringComparison.Ordinal);
        Assert.Contains("Temperature unknown: switch the heater off at the plug and look at the vat.", text, StringComparison.Ordinal);
        Assert.Contains("VatWatch itself", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_names_stay_text()
    {
        var html = await RunningPages.HtmlAsync(new Scenes().Hostile());

        Assert.DoesNotContain("<script>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<img src=x", html, StringComparison.Ordinal);
        Assert.Contains("&lt;script&gt;alert(", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_has_no_inline_script_or_style_and_reloads_itself_without_script()
    {
        var html = await RunningPages.HtmlAsync(new Scenes().Overheat());

        Assert.DoesNotContain(" style=", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<style", html, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"<script(?! src=""/assets/)", html);
        Assert.DoesNotMatch(@"<[^>]* on\w+=", html);
        Assert.Contains("<noscript><meta http-equiv=\"refresh\" content=\"20\"></noscript>", html, StringComparison.Ordinal);
        Assert.StartsWith("<!DOCTYPE html>", html.TrimStart(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_page_says_that_it_is_no_safety_device() =>
        Assert.Contains("VatWatch is not a safety device.", await RunningPages.TextAsync(new Scenes()), StringComparison.Ordinal);

    [Fact]
    public async Task A_simulation_says_so_plainly()
    {
        var site = new SiteFacts("hill-studio", DisplayUnits.Si, new HashSet<VatId> { new("madder-lane") }, 120);
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), site: site);
        using var browser = pages.Browser();

        var text = Text(await browser.GetStringAsync("/", TestContext.Current.CancellationToken));

        Assert.Contains("Simulation. Vats marked “simulated” are calculated, not real. Time runs 120 times as fast as on the wall.", text, StringComparison.Ordinal);
        Assert.Contains("Madder Lane vat simulated", text, StringComparison.Ordinal);
        Assert.Contains("45.2 °C", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_clock_that_is_not_trusted_is_told()
    {
        var scenes = new Scenes().Ready();
        scenes.Clock.Trusted = false;

        Assert.Contains("times of day on this page may be wrong", await RunningPages.TextAsync(scenes), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_files_of_the_page_are_there_and_kept_by_the_browser()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var html = await browser.GetStringAsync("/", TestContext.Current.CancellationToken);
        var files = AssetPattern().Matches(html).Select(match => WebUtility.HtmlDecode(match.Value)).Distinct().ToList();

        Assert.Equal(6, files.Count);
        foreach (var file in files)
        {
            using var reply = await browser.GetAsync(file, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
            Assert.Contains("immutable", reply.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("/", false)]
    [InlineData("/vats/madder-lane", true)]
    public async Task Only_a_page_with_a_form_brings_the_cookie_of_forms(string page, bool hasForm)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync(page, TestContext.Current.CancellationToken);

        Assert.Equal(hasForm, (await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).Contains("__RequestVerificationToken", StringComparison.Ordinal));
        Assert.Equal(hasForm, reply.Headers.TryGetValues("Set-Cookie", out var cookies) && cookies.Any(cookie => cookie.StartsWith("vatwatch.form", StringComparison.Ordinal)));
    }

    /// <summary>What a reader sees: tags and needless spaces gone, entities turned into characters.</summary>
    internal static string Text(string html) => SpacePattern().Replace(WebUtility.HtmlDecode(TagPattern().Replace(html, " ")), " ").Replace(" ·", " ·", StringComparison.Ordinal);

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex TagPattern();

    [GeneratedRegex(@"\s+")]
    private static partial Regex SpacePattern();

    [GeneratedRegex("<button[^>]*class=\"acknowledge\"")]
    private static partial Regex AcknowledgePattern();

    [GeneratedRegex("/assets/[^\"]*")]
    private static partial Regex AssetPattern();
}
