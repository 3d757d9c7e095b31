using System.Net;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.Dosing;

public sealed class DosingPagesTests
{
    private const string Asked = "/dosing?vat=madder-lane&what=alkali&volume=40&temperature=113&ph=9.0&target=10.0&fibre=protein";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_form_is_filled_from_the_live_vat()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var html = await browser.GetStringAsync("/dosing", Cancel);
        foreach (var (field, value) in new[] { ("volume", "40.0 gal"), ("temperature", "113.4 °F"), ("ph", "9.98"), ("target", "10.0"), ("soda-ash-so-far", "") })
        {
            Assert.Contains($"name=\"{field}\" value=\"{value}\"", html.Replace("&#xB0;", "°", StringComparison.Ordinal), StringComparison.Ordinal);
        }

        Assert.Contains("Nothing is logged", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Old_readings_are_not_filled_in()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Old());
        using var browser = pages.Browser();
        Assert.Contains("No fresh good reading to fill in.", await browser.GetStringAsync("/dosing", Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Amount_range_first_portion_wait_and_cautions_stand_together()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var text = VatsPageTests.Text(await browser.GetStringAsync(Asked, Cancel));
        Assert.Matches(@"Weigh out\s+\d+\.\d\d oz\s+\(\d+(\.\d)? g\)", text);
        Assert.Contains("Give that first", text, StringComparison.Ordinal);
        Assert.Contains("10 to 15 min", text, StringComparison.Ordinal);
        Assert.Contains("Sealed goggles", text, StringComparison.Ordinal);
        Assert.Contains("The history of the liquor is not known", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_logged_of_soda_ash_narrows_the_next_dose_and_asks_to_wait()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        using var logged = await Forms.SubmitAsync(browser, Asked, "/entries", ("by", "Ada"), ("amount", "1.5"));
        Assert.Equal((HttpStatusCode.SeeOther, "/dosing?vat=madder-lane&what=alkali"), (logged.StatusCode, logged.Headers.Location!.OriginalString));
        var page = await browser.GetStringAsync(logged.Headers.Location, Cancel);
        Assert.Contains("name=\"soda-ash-so-far\" value=\"1.5 oz\"", page, StringComparison.Ordinal);
        Assert.Contains("added 1.50 oz of soda ash: first portion of a dose of", VatsPageTests.Text(page), StringComparison.Ordinal);
        Assert.Contains("A portion went in a short while ago", await browser.GetStringAsync(Asked, Cancel), StringComparison.Ordinal);

        scenes.Time.Advance(TimeSpan.FromMinutes(11));
        Assert.DoesNotContain("A portion went in a short while ago", await browser.GetStringAsync(Asked, Cancel), StringComparison.Ordinal);
        Assert.Equal(Material.SodaAsh, Assert.Single(Entries(pages)).Material);
    }

    [Fact]
    public async Task Soda_ash_of_a_liquor_that_was_made_anew_is_not_counted()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var logged = await Forms.SubmitAsync(browser, Asked, "/entries", ("by", "Ada"), ("amount", "1.5"));
        using var anew = await Forms.SubmitAsync(browser, Asked, "/entries", ("by", "Ada"), ("kind", "made-anew"), ("amount", "40 gallons"));
        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (logged.StatusCode, anew.StatusCode));
        Assert.Contains("Nothing is logged", await browser.GetStringAsync("/dosing", Cancel), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("what=alkali&volume=40&temperature=113&ph=9&target=12&fibre=protein", "is above pH 10")]
    [InlineData("what=alkali&volume=90000 L&temperature=113&ph=9&target=10&fibre=protein", "Liquor in the vat is '90000 L'; wanted at most 60.0 gal, since")]
    [InlineData("what=reducer&volume=400&temperature=113&dye=4&kind=dithionite", "Liquor in the vat is '400'; wanted at most 60.0 gal, since")]
    [InlineData("what=alkali&volume=40&temperature=95 C&ph=9&target=10&fibre=wool", "let the vat cool before anything is added")]
    [InlineData("what=alkali&volume=40&temperature=113 F&ph=9,95&target=10&fibre=wool", "within the electrode's error")]
    [InlineData("what=alkali&volume=much&temperature=113&ph=nine&target=10", "Liquor in the vat is 'much'; wanted a volume")]
    [InlineData("what=alkali&volume=40&temperature=113&ph=nine&target=10", "pH now is 'nine'; wanted a pH")]
    [InlineData("what=reducer&volume=40&temperature=113&dye=0&kind=dithionite", "either dye nor oxygen was named")]
    [InlineData("what=reducer&volume=40&temperature=113&dye=4&kind=salt", "Reducing agent is 'salt'; wanted one of thiourea-dioxide")]
    public async Task What_is_refused_is_told_and_has_no_button(string query, string says)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var html = await browser.GetStringAsync($"/dosing?vat=madder-lane&{query}", Cancel);
        Assert.Contains(says, VatsPageTests.Text(html), StringComparison.Ordinal);
        Assert.DoesNotContain("Log this addition", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_reducer_is_dosed_and_logged_as_the_vats_own()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        const string asked = "/dosing?vat=madder-lane&what=reducer&kind=thiourea-dioxide&volume=40&temperature=113&dye=4&dye-strength=40";
        using var logged = await Forms.SubmitAsync(browser, asked, "/entries", ("by", "Ada"), ("amount", "10 g"));
        var entry = Assert.Single(Entries(pages));
        Assert.Equal((Material.ReducingAgent, 10.0), (entry.Material, entry.Amount));
    }

    [Fact]
    public async Task What_was_typed_is_shown_as_text()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var html = await browser.GetStringAsync("/dosing?vat=madder-lane&volume=%3Cscript%3Ealert(1)%3C/script%3E\"%3E%3Cb%3E", Cancel);
        Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
        Assert.DoesNotContain("\"><b>", html, StringComparison.Ordinal);
    }

    private static IReadOnlyList<SessionEntry> Entries(RunningPages pages)
    {
        using var reader = pages.LogBook.Store.OpenReader();
        return EntryTable.Between(reader, new("madder-lane"), DateTimeOffset.MinValue, DateTimeOffset.MaxValue);
    }
}
