using System.Net;
using VatWatch.Daemon.Tests.Web.Pages;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Vats;

namespace VatWatch.Daemon.Tests.Web.LogBook;

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
    public async Task Two_sessions_stand_side_by_side_with_their_differences()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        var a = await DyeAsync(pages, scenes, Madder, dips: 2);
        var b = await DyeAsync(pages, scenes, North, dips: 3);

        var text = VatsPageTests.Text(await browser.GetStringAsync($"/sessions/compare?a=madder-lane%2F{a.Id}&b=north-tub%2F{b.Id}", Cancel));

        Assert.Contains("Dips231 more", text.Replace(" ", "", StringComparison.Ordinal).Replace("1more", "1 more", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("North tub", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/vats/madder-lane/sessions/2026-01-01")]
    [InlineData("/vats/madder-lane/sessions/..%2f..")]
    [InlineData("/vats/elsewhere/sessions/2026-01-01")]
    [InlineData("/vats/madder-lane/sessions/2026-01-01/report.pdf")]
    [InlineData("/vats/madder-lane/sessions/2026-01-01/report.exe")]
    [InlineData("/sessions/compare")]
    [InlineData("/sessions/compare?a=madder-lane/2026-01-01&b=x")]
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
            pages.LogBook.Store.Offer(new Measurement(
                Madder, new("madder-lane-liquor"), Measures.Temperature, scenes.Clock.Now().Plus(TimeSpan.FromSeconds(second)), liquorC, liquorC, Quality.Good, null, null));
        }

        await pages.LogBook.Store.FlushAsync(Cancel);
    }

    /// <summary>Dips of ten minutes with two between them, and two ounces of soda ash in the session.</summary>
    private static async Task<Session> DyeAsync(RunningPages pages, Scenes scenes, VatId vat, int dips)
    {
        var desk = pages.LogBook.Desk;
        await desk.StartAsync(vat, "Ada", SessionDetails.None, Cancel);
        await desk.WriteAsync(new(vat, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 2 * 28.349523125 }, Cancel);
        for (var dip = 0; dip < dips; dip++)
        {
            Assert.Null((await desk.WriteAsync(new(vat, EntryKind.DipIn, "Ada"), Cancel)).Refused);
            scenes.Time.Advance(TimeSpan.FromMinutes(10));
            await desk.WriteAsync(new(vat, EntryKind.DipOut, "Ada"), Cancel);
            scenes.Time.Advance(TimeSpan.FromMinutes(2));
        }

        return (await desk.EndAsync(vat, "Ada", Cancel)).Session!;
    }
}
