using System.Net;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.LogBook.History;

public sealed class SessionPagesTests
{
    private static readonly VatId Madder = new("madder-lane");
    private static readonly VatId North = new("north-tub");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Sessions_are_listed_newest_first_and_paged_back()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        for (var day = 0; day < 33; day++)
        {
            await DyeAsync(pages, scenes, Madder, dips: 1);
            scenes.Time.Advance(TimeSpan.FromHours(23));
        }

        var first = await browser.GetStringAsync("/sessions", Cancel);
        Assert.True(first.IndexOf("sessions/2026-04-04\"", StringComparison.Ordinal) < first.IndexOf("sessions/2026-04-03\"", StringComparison.Ordinal));
        Assert.DoesNotContain("sessions/2026-03-04\"", first, StringComparison.Ordinal);
        var older = WebUtility.HtmlDecode(System.Text.RegularExpressions.Regex.Match(first, "href=\"(/sessions\\?before=[^\"]*)\"").Groups[1].Value);
        var second = await browser.GetStringAsync(older, Cancel);
        Assert.Contains("sessions/2026-03-04\"", second, StringComparison.Ordinal);
        Assert.DoesNotContain("Older</a>", second, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_session_has_its_dips_its_sums_and_its_report_files()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        await MeasureAsync(pages, scenes, 45.2);
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 28.349523125 }, Cancel);
        var session = await DyeAsync(pages, scenes, Madder, dips: 2);

        var text = VatsPageTests.Text(await browser.GetStringAsync($"/vats/madder-lane/sessions/{session.Id}", Cancel));
        Assert.Contains("2, 20 min in the liquor", text, StringComparison.Ordinal);
        Assert.Contains("2.00 oz of soda ash", text, StringComparison.Ordinal);
        foreach (var (ending, type) in new[] { ("html", "text/html"), ("pdf", "application/pdf"), ("png", "image/png"), ("svg", "image/svg+xml"), ("csv", "text/csv") })
        {
            using var file = await browser.GetAsync($"/vats/madder-lane/sessions/{session.Id}/report.{ending}", Cancel);
            Assert.Equal((HttpStatusCode.OK, type), (file.StatusCode, file.Content.Headers.ContentType!.MediaType));
            Assert.Contains("sandbox", file.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        }

        Assert.Contains("45.2", await browser.GetStringAsync($"/vats/madder-lane/sessions/{session.Id}/report.csv", Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_said_of_a_session_may_be_changed_afterwards()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        var session = await DyeAsync(pages, scenes, Madder, dips: 1);
        var page = $"/vats/madder-lane/sessions/{session.Id}";

        using var kept = await Forms.SubmitAsync(browser, page, page, ("by", "Ada"), ("yarn", "900 g"), ("fibre", "cellulose"), ("shade", "pale"), ("verdict", "poor"));
        Assert.Equal((HttpStatusCode.SeeOther, page), (kept.StatusCode, kept.Headers.Location!.OriginalString));
        var text = VatsPageTests.Text(await browser.GetStringAsync(page, Cancel));
        Assert.Contains("1.98 lb", text, StringComparison.Ordinal);
        Assert.Contains("pale", text, StringComparison.Ordinal);

        using var wrong = await Forms.SubmitAsync(browser, page, page, ("by", "Ada"), ("yarn", "heavy"));
        Assert.Equal(HttpStatusCode.Conflict, wrong.StatusCode);
    }

    [Fact]
    public async Task Two_sessions_are_drawn_over_each_other_with_their_differences()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        var a = await DyeAsync(pages, scenes, Madder, dips: 2);
        var b = await DyeAsync(pages, scenes, North, dips: 3);

        var list = await browser.GetStringAsync("/sessions", Cancel);
        Assert.Contains($"value=\"madder-lane/{a.Id}\"", list, StringComparison.Ordinal);
        var query = $"session=madder-lane%2F{a.Id}&session=north-tub%2F{b.Id}";
        var html = await browser.GetStringAsync($"/sessions/compare?{query}", Cancel);
        var text = VatsPageTests.Text(html);

        Assert.Contains("Dips231", text.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("North tub", text, StringComparison.Ordinal);
        var drawing = WebUtility.HtmlDecode(System.Text.RegularExpressions.Regex.Match(html, "<img src=\"([^\"]*)\"").Groups[1].Value);
        foreach (var (address, type) in new[] { (drawing, "image/svg+xml"), ($"/sessions/compare.pdf?{query}", "application/pdf"), ($"/sessions/compare.html?{query}", "text/html") })
        {
            using var file = await browser.GetAsync(address, Cancel);
            Assert.Equal((HttpStatusCode.OK, type), (file.StatusCode, file.Content.Headers.ContentType!.MediaType));
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("?session=madder-lane/2026-03-04")]
    [InlineData("?session=madder-lane/2026-03-04&session=madder-lane/2026-03-04")]
    [InlineData("?session=a/1&session=a/2&session=a/3&session=a/4&session=a/5")]
    public async Task Fewer_than_two_or_more_than_four_cannot_be_compared_and_the_page_says_so(string query)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync($"/sessions/compare{query}", Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains("wanted 2 to 4", await reply.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_vat_has_a_life_to_which_its_sessions_lead()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        await DyeAsync(pages, scenes, Madder, dips: 2);

        Assert.Contains("href=\"/vats/madder-lane/life\"", await browser.GetStringAsync("/sessions?vat=madder-lane", Cancel), StringComparison.Ordinal);
        var html = await browser.GetStringAsync("/vats/madder-lane/life", Cancel);
        Assert.Contains("State at the start", VatsPageTests.Text(html), StringComparison.Ordinal);
        foreach (var ending in new[] { "html", "pdf", "png", "svg" })
        {
            Assert.Contains($"href=\"/vats/madder-lane/life.{ending}\"", html, StringComparison.Ordinal);
            using var file = await browser.GetAsync($"/vats/madder-lane/life.{ending}", Cancel);
            Assert.Equal(HttpStatusCode.OK, file.StatusCode);
        }
    }

    [Theory]
    [InlineData("/vats/madder-lane/sessions/2026-01-01")]
    [InlineData("/vats/madder-lane/sessions/..%2f..")]
    [InlineData("/vats/elsewhere/sessions/2026-01-01")]
    [InlineData("/vats/madder-lane/sessions/2026-01-01/report.pdf")]
    [InlineData("/vats/madder-lane/sessions/2026-01-01/report.exe")]
    [InlineData("/sessions/compare?session=madder-lane/2026-01-01&session=x")]
    [InlineData("/sessions/compare.pdf?session=madder-lane/2026-01-01&session=x")]
    [InlineData("/sessions/compare.pdf")]
    [InlineData("/sessions/compare.csv?session=madder-lane/2026-01-01&session=x")]
    [InlineData("/vats/elsewhere/life")]
    [InlineData("/vats/elsewhere/life.pdf")]
    [InlineData("/vats/madder-lane/life.csv")]
    public async Task What_there_is_not_is_told_plainly(string address)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync(address, Cancel);
        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    private static async Task MeasureAsync(RunningPages pages, Scenes scenes, double liquorC)
    {
        for (var second = 0; second <= 1800; second += 60)
        {
            pages.LogBook.Store.Enqueue(new Measurement(
                Madder, new("madder-lane-liquor"), Quantity.Temperature, scenes.Clock.Now().Plus(TimeSpan.FromSeconds(second)), liquorC, liquorC, Quality.Good, null, null));
        }

        await pages.LogBook.Store.FlushAsync(Cancel);
    }

    /// <summary>Dips of ten minutes with two between them, and two ounces of soda ash in the session.</summary>
    private static async Task<Session> DyeAsync(RunningPages pages, Scenes scenes, VatId vat, int dips)
    {
        var sessions = pages.LogBook.Desk;
        await sessions.StartAsync(vat, "Ada", SessionDetails.None, Cancel);
        await sessions.WriteAsync(new(vat, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 2 * 28.349523125 }, Cancel);
        for (var dip = 0; dip < dips; dip++)
        {
            Assert.Null((await sessions.WriteAsync(new(vat, EntryKind.DipIn, "Ada"), Cancel)).Refused);
            scenes.Time.Advance(TimeSpan.FromMinutes(10));
            await sessions.WriteAsync(new(vat, EntryKind.DipOut, "Ada"), Cancel);
            scenes.Time.Advance(TimeSpan.FromMinutes(2));
        }

        return (await sessions.EndAsync(vat, "Ada", Cancel)).Session!;
    }
}
