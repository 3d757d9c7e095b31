using System.Net;
using System.Text.RegularExpressions;
using VatWatch.Daemon.Web;

namespace VatWatch.Daemon.Tests.Web.Vats;

public sealed partial class VatsPageTests
{
    [Fact]
    public async Task A_ready_vat_shows_state_reason_numbers_ages_quality_and_trend_in_words()
    {
        var text = await TextAsync(new Scenes().Ready());

        Assert.Contains("Madder Lane vat", text, StringComparison.Ordinal);
        Assert.Contains("ready In the band, reduced and alkaline.", text, StringComparison.Ordinal);
        Assert.Contains("Liquor 113.4 °F → steady good · 3 s ago", text, StringComparison.Ordinal);
        Assert.Contains("pH 9.98 good · 6 s ago", text, StringComparison.Ordinal);
        Assert.Contains("ORP −671 mV ↘ falling 38 mV/h, gaining reduction good · 8 s ago", text, StringComparison.Ordinal);
        Assert.Contains("No alarm stands.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_forecast_is_a_range_and_counts_from_now()
    {
        var scenes = new Scenes().Warming();
        scenes.Time.Advance(TimeSpan.FromSeconds(9));

        var text = await TextAsync(scenes);

        // 55 min and 81 min, worked out 12 s ago, clock at 03:20:09 UTC.
        Assert.Matches(@"Enters the working band in 54 min to 1 h 20 min \(\d\d:\d\d to \d\d:\d\d\)\.", text);
    }

    [Fact]
    public async Task A_limit_that_may_never_be_reached_says_so() =>
        Assert.Matches(@"Reaches the limit of 120\.2 °F in 1 h 34 min at the earliest \(\d\d:\d\d\), or never\.", await TextAsync(new Scenes().Overheat()));

    [Fact]
    public async Task Alarms_come_before_vats_the_weightiest_first()
    {
        var text = await TextAsync(new Scenes().Overheat());

        var overheat = text.IndexOf("liquor is 121.3 °F, limit 120.2 °F.", StringComparison.Ordinal);
        var rising = text.IndexOf("ORP rises 26 mV/h", StringComparison.Ordinal);
        var vat = text.IndexOf("too hot Liquor is 121.3 °F", StringComparison.Ordinal);
        Assert.True(overheat > 0 && overheat < rising && rising < vat, text);
        Assert.Contains("standing, acknowledged by Ada at", text, StringComparison.Ordinal);
        Assert.Contains("Switch the heater off at the plug now.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hot_liquor_brings_a_scald_caution_and_warm_liquor_does_not()
    {
        // 49.6 °C, between 8 min at 49 °C and 2 min at 51 °C to a burn (Moritz and Henriques 1947).
        Assert.Contains("burns bare skin in about 5 minutes", await TextAsync(new Scenes().Overheat()), StringComparison.Ordinal);
        Assert.DoesNotContain("burns bare skin", await TextAsync(new Scenes().Warming()), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Old_numbers_are_called_old_and_the_state_unknown()
    {
        var text = await TextAsync(new Scenes().Old());

        Assert.Contains("Old: no new reading for 14 min.", text, StringComparison.Ordinal);
        Assert.Contains("old: 14 min ago", text, StringComparison.Ordinal);
        Assert.Contains("unknown", text, StringComparison.Ordinal);
        Assert.DoesNotContain("In the band, reduced and alkaline.", text, StringComparison.Ordinal);
        Assert.Contains("Temperature unknown: switch the heater off at the plug.", text, StringComparison.Ordinal);
        Assert.Contains("burns bare skin", text, StringComparison.Ordinal);
        Assert.DoesNotContain("No alarm stands.", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_silent_probe_shows_no_number_but_its_reason()
    {
        var text = await TextAsync(new Scenes().ProbeSilent());

        Assert.Contains("Liquor — no value: no reply within 1 s", text, StringComparison.Ordinal);
        Assert.Contains("pH 10.05 doubtful: flat for 30 min", text, StringComparison.Ordinal);
        Assert.Contains("Temperature unknown: switch the heater off at the plug.", text, StringComparison.Ordinal);
        Assert.Contains("VatWatch itself", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_names_stay_text()
    {
        var html = await HtmlAsync(new Scenes().Hostile());

        Assert.DoesNotContain("<script>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<img src=x", html, StringComparison.Ordinal);
        Assert.Contains("&lt;script&gt;alert(", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_has_no_inline_script_or_style_and_reloads_itself_without_script()
    {
        var html = await HtmlAsync(new Scenes().Overheat());

        Assert.DoesNotContain(" style=", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<style", html, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"<script(?! src=""/assets/)", html);
        Assert.DoesNotMatch(@"<[^>]* on\w+=", html);
        Assert.Contains("<noscript><meta http-equiv=\"refresh\" content=\"20\"></noscript>", html, StringComparison.Ordinal);
        Assert.StartsWith("<!DOCTYPE html>", html.TrimStart(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_page_says_that_it_is_no_safety_device() =>
        Assert.Contains("VatWatch is not a safety device.", await TextAsync(new Scenes()), StringComparison.Ordinal);

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

        Assert.Contains("times of day on this page may be wrong", await TextAsync(scenes), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_files_of_the_page_are_there_and_kept_by_the_browser()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var html = await browser.GetStringAsync("/", TestContext.Current.CancellationToken);
        var files = AssetPattern().Matches(html).Select(match => WebUtility.HtmlDecode(match.Value)).Distinct().ToList();

        Assert.Equal(5, files.Count);
        foreach (var file in files)
        {
            using var reply = await browser.GetAsync(file, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
            Assert.Contains("immutable", reply.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        }
    }

    private static async Task<string> HtmlAsync(Scenes scenes)
    {
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        return await browser.GetStringAsync("/", TestContext.Current.CancellationToken);
    }

    private static async Task<string> TextAsync(Scenes scenes) => Text(await HtmlAsync(scenes));

    /// <summary>What a reader sees: tags and needless spaces gone, entities turned into characters.</summary>
    internal static string Text(string html) => SpacePattern().Replace(WebUtility.HtmlDecode(TagPattern().Replace(html, " ")), " ").Replace(" ·", " ·", StringComparison.Ordinal);

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex TagPattern();

    [GeneratedRegex(@"\s+")]
    private static partial Regex SpacePattern();

    [GeneratedRegex("/assets/[^\"]*")]
    private static partial Regex AssetPattern();
}
