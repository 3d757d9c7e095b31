using System.Net;
using SkiaSharp;
using VatWatch.Charts.Tests;
using VatWatch.Daemon.Tests.Web.Plans;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Daemon.Web.LogBook.Photos;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Pipeline;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Tests.Web.LogBook.Writing;

public sealed class LogBookFormsTests
{
    private const string Page = "/vats/madder-lane";
    private const string Entries = "/vats/madder-lane/entries";

    private static readonly VatId Madder = new("madder-lane");

    /// <summary>The eight bytes that begin every PNG (PNG specification §5.2), and something after them.</summary>
    private static readonly byte[] Png = Pictures.Of(60, 40, SKEncodedImageFormat.Png);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_same_tap_twice_is_one_dip_and_no_error()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var first = await Forms.SubmitAsync(browser, Page, "/madder-lane/entries", ("by", "Ada"), ("kind", "dip-in"));
        using var second = await Forms.SubmitAsync(browser, Page, "/madder-lane/entries", ("by", "Ada"), ("kind", "dip-in"));

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (first.StatusCode, second.StatusCode));
        Assert.Contains("1 dip", VatsPageTests.Text(await browser.GetStringAsync(Page, Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_refused_form_is_shown_again_with_what_was_typed()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var refused = await Forms.SubmitAsync(browser, Page, "/madder-lane/entries", ("by", "Ada"), ("kind", "added"), ("material", "soda-ash"), ("amount", "1,500 g"), ("text", "<b>warm</b>"));
        var html = await refused.Content.ReadAsStringAsync(Cancel);

        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Contains("value=\"1,500 g\"", html, StringComparison.Ordinal);
        Assert.Contains("value=\"&lt;b&gt;warm&lt;/b&gt;\"", html, StringComparison.Ordinal);
        Assert.Contains("name=\"material\" value=\"soda-ash\"", html, StringComparison.Ordinal);
        Assert.Contains("Try again", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_session_goes_from_the_first_dip_to_its_verdict_by_forms_alone()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        using var dipIn = await Tap(browser, "dip-in");
        Assert.Equal((HttpStatusCode.SeeOther, "/vats/madder-lane#log-book"), (dipIn.StatusCode, dipIn.Headers.Location!.OriginalString));
        var during = await browser.GetStringAsync(Page, Cancel);
        Assert.Contains("Dip out</button>", during, StringComparison.Ordinal);
        Assert.DoesNotContain("Dip in</button>", during, StringComparison.Ordinal);
        Assert.Contains("In <time data-elapsed=\"0\"", during, StringComparison.Ordinal);
        Assert.Contains("yarn in", VatsPageTests.Text(during), StringComparison.Ordinal);

        scenes.Time.Advance(TimeSpan.FromMinutes(12));
        using var dipOut = await Tap(browser, "dip-out");
        using var end = await Forms.SubmitAsync(browser, Page, "/sessions/end", ("verdict", "good"));
        Assert.Equal(HttpStatusCode.SeeOther, end.StatusCode);

        var session = Assert.Single(Read(pages, reader => SessionTable.Newest(reader, Madder, 10)));
        Assert.Equal((false, Verdict.Good), (session.IsOpen, session.Details.Verdict));
        var page = VatsPageTests.Text(await browser.GetStringAsync($"{Page}/sessions/{session.Id}", Cancel));
        Assert.Contains("12 min", page, StringComparison.Ordinal);
        Assert.Contains("good", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("10", "", "", 10)]
    [InlineData("at", "02:50", "", 30)]
    [InlineData("at", "03:30", "", 24 * 60 - 10)]
    [InlineData("", "", "120", 2)]
    [InlineData("5", "", "60", 6)]
    public async Task An_entry_stands_at_the_time_that_was_said_or_at_which_the_phone_kept_it(string when, string at, string kept, int minutesAgo)
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(
            browser, Page, Entries, ("by", "Ada"), ("kind", "stirred"), (EntryFields.When, when), (EntryFields.At, at), (EntryFields.Kept, kept), (EntryFields.Tap, "t1"));

        Assert.Equal(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.Equal(Scenes.Start.AddMinutes(-minutesAgo), Assert.Single(Stored(pages)).At.Utc);
    }

    [Fact]
    public async Task What_the_dyer_means_to_do_is_kept_and_can_be_changed()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var started = await Forms.SubmitAsync(
            browser, Page, "/madder-lane/sessions", ("by", "Ada"), ("yarn", ""), (EntryFields.DipMinutes, "5"), (EntryFields.AiringMinutes, "20"), (EntryFields.Dips, "4"));
        using var refused = await Forms.SubmitAsync(
            browser, Page, "/madder-lane/sessions/", ("by", "Ada"), ("yarn", ""), (EntryFields.DipMinutes, "a while"));

        Assert.Equal(new DipWish(5, 20, 4), Assert.Single(Read(pages, reader => SessionTable.Newest(reader, Madder, 10))).Details.Wish);
        Assert.Contains("wanted a number such as", await refused.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_name_is_asked_for_once_and_remembered()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var nameless = await Forms.SubmitAsync(browser, Page, Entries, ("kind", "stirred"));
        Assert.Equal(HttpStatusCode.BadRequest, nameless.StatusCode);
        using var kept = await Tap(browser, LogBookForms.OnlyName);
        using var stirred = await Forms.SubmitAsync(browser, Page, Entries, ("kind", "stirred"), ("by", "Ada"));

        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (kept.StatusCode, stirred.StatusCode));
        Assert.Contains("Written by Ada", await browser.GetStringAsync(Page, Cancel), StringComparison.Ordinal);
        Assert.Equal("Ada", Assert.Single(Stored(pages)).By);
    }

    [Theory]
    [InlineData("soda-ash", "2", 56.69904625)]
    [InlineData("soda-ash", "50 g", 50)]
    [InlineData("reducing-agent", "0.5 oz", 14.1747615625)]
    [InlineData("water", "1.5", 5.678117676)]
    [InlineData("stock", "2 L", 2)]
    public async Task An_addition_is_taken_in_the_dyers_units(string material, string written, double amount)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, Page, Entries, ("by", "Ada"), ("kind", "added"), ("material", material), ("amount", written));

        Assert.Equal(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.Equal(amount, Assert.Single(Stored(pages)).Amount!.Value, 6);
    }

    [Theory]
    [InlineData("added", "soda-ash", "a handful", "wanted a weight such as \"2 oz\"")]
    [InlineData("added", "soda-ash", "1 gal", "wanted a weight such as \"2 oz\"")]
    [InlineData("added", "soda-ash", "-3", "wanted more than 0")]
    [InlineData("added", "", "2", "does not say what was added")]
    [InlineData("dip-out", "", "", "No yarn is in the vat")]
    [InlineData("sung", "", "", "does not say what happened")]
    [InlineData("photo", "", "", "No picture came")]
    public async Task What_cannot_be_is_refused_with_a_sentence_and_not_written(string kind, string material, string amount, string says)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, Page, Entries, ("by", "Ada"), ("kind", kind), ("material", material), ("amount", amount));

        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
        Assert.Contains(says, VatsPageTests.Text(await reply.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
        Assert.Empty(Stored(pages));
    }

    [Theory]
    [InlineData("/vats/madder-lane/sessions")]
    [InlineData("/vats/madder-lane/sessions/end")]
    [InlineData("/vats/madder-lane/sessions/2026-03-04")]
    [InlineData("/vats/madder-lane/entries")]
    [InlineData("/vats/madder-lane/entries/withdraw")]
    public async Task Without_the_token_nothing_is_written(string address)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var form = new FormUrlEncodedContent([new("by", "Ada"), new("kind", "dip-in"), new("entry", "1")]);

        using var reply = await browser.PostAsync(address, form, Cancel);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Empty(Stored(pages));
    }

    [Fact]
    public async Task An_entry_that_was_a_slip_is_withdrawn_by_its_button()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var slip = await Tap(browser, "dip-in");
        var entry = Assert.Single(Stored(pages)).Id;

        using var undone = await Forms.SubmitAsync(browser, Page, "/entries/withdraw", ("entry", $"{entry}"));

        Assert.Equal(HttpStatusCode.SeeOther, undone.StatusCode);
        Assert.NotNull(Assert.Single(Stored(pages)).Withdrawn);
        Assert.Contains("Dip in</button>", await browser.GetStringAsync(Page, Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_picture_is_shown_back_by_what_it_is_and_not_by_what_was_said()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var sent = await Forms.UploadAsync(browser, Page, Entries, "picture", Png, "text/html", ("by", "Ada"), ("kind", "photo"), ("text", "the flower"));
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        var address = PhotoEndpoint.Href(Assert.Single(Stored(pages)));
        using var shown = await browser.GetAsync(address, Cancel);

        Assert.Equal("image/jpeg", shown.Content.Headers.ContentType!.MediaType);
        using var picture = SKBitmap.Decode(await shown.Content.ReadAsByteArrayAsync(Cancel));
        Assert.Equal((60, 40), (picture.Width, picture.Height));
        Assert.Equal("nosniff", shown.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Equal(PhotoEndpoint.Policy, shown.Headers.GetValues("Content-Security-Policy").Single());
        Assert.Contains(address, await browser.GetStringAsync(Page, Cancel), StringComparison.Ordinal);
        using var elsewhere = await browser.GetAsync(address.Replace("madder-lane", "north-tub", StringComparison.Ordinal), Cancel);
        Assert.Equal(HttpStatusCode.NotFound, elsewhere.StatusCode);
    }

    [Fact]
    public async Task What_is_no_picture_or_too_large_is_refused()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var page = await Forms.UploadAsync(browser, Page, Entries, "picture", "<script>alert(1)</script>"u8.ToArray(), "image/png", ("by", "Ada"), ("kind", "photo"));
        using var large = await Forms.UploadAsync(browser, Page, Entries, "picture", [.. Png, .. new byte[UploadedPicture.MostBytes]], "image/png", ("by", "Ada"), ("kind", "photo"));

        Assert.Equal((HttpStatusCode.Conflict, HttpStatusCode.Conflict), (page.StatusCode, large.StatusCode));
        Assert.Contains("wanted at most 8.4 MB", VatsPageTests.Text(await large.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
        Assert.Empty(Stored(pages));
    }

    [Fact]
    public async Task A_form_without_a_picture_may_not_be_as_large_as_one()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, Page, Entries, ("by", "Ada"), ("kind", "note"), ("text", new string('x', 70_000)));

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, reply.StatusCode);
    }

    [Fact]
    public async Task What_was_written_is_shown_as_text()
    {
        const string evil = "<script>alert('x')</script>\"><b>";
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var started = await Forms.SubmitAsync(browser, Page, "/madder-lane/sessions", ("by", "<b>Ada"), ("yarn", "2 lb"), ("shade", evil));
        using var noted = await Forms.SubmitAsync(browser, Page, Entries, ("by", "<b>Ada"), ("kind", "note"), ("text", evil));
        using var other = await Forms.SubmitAsync(browser, "/vats/north-tub", "/north-tub/sessions", ("by", "<b>Ada"), ("yarn", "3 lb"), ("shade", $"pale {evil}"));
        var session = Assert.Single(Read(pages, reader => SessionTable.Newest(reader, Madder, 1)));

        var compared = $"session=madder-lane/{session.Id}&session=north-tub/{session.Id}";
        string[] addresses = [Page, "/sessions", $"{Page}/sessions/{session.Id}", $"{Page}/life", $"{Page}/life.html", $"/sessions/compare?{compared}", $"/sessions/compare.html?{compared}"];
        foreach (var address in addresses)
        {
            var html = await browser.GetStringAsync(address, Cancel);
            Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
            Assert.DoesNotContain("<b>Ada", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task With_the_yarn_known_the_page_says_what_a_dip_will_do()
    {
        var scenes = HeatingApiTests.WithHeat(heaterOn: false, coldC: 44);
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        Assert.Contains("With the weight of the yarn known", await browser.GetStringAsync(Page, Cancel), StringComparison.Ordinal);

        using var started = await Forms.SubmitAsync(browser, Page, "/madder-lane/sessions", ("by", "Ada"), ("yarn", "4 lb"), ("fibre", "protein"), ("shade", "mid blue"));
        var text = VatsPageTests.Text(await browser.GetStringAsync(Page, Cancel));

        // 1.81 kg of wool with 1.5 to 3 times its weight of water takes 13.9 to 25 kJ/K of about 640 kJ/K; 24 K above the room that is 0.5 to 0.95 K.
        Assert.Contains("What 4.00 lb of yarn will do", text, StringComparison.Ordinal);
        Assert.Matches(@"cools the liquor by 0\.\d to 1\.\d °F, to about 1(09|10)\.\d °F", text);
        Assert.Contains("carries 6.00 lb to 12.00 lb of water", text, StringComparison.Ordinal);
        Assert.Contains("wanted: mid blue", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_looks_is_told_of_every_change()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        using var follower = scenes.Feed.Subscribe(8);

        using var tapped = await Tap(browser, "dip-in");

        Assert.True(follower.Events.TryRead(out var told));
        Assert.Equal(new SessionChange(Madder), told);
    }

    [Fact]
    public async Task A_disk_that_does_not_write_is_told_of()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        await pages.LogBook.CloseAsync();

        using var reply = await Tap(browser, "dip-in");

        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
        Assert.Contains("could not be written to the disk", await reply.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> Tap(HttpClient browser, string kind) => Forms.SubmitAsync(browser, Page, Entries, ("by", "Ada"), ("kind", kind));

    private static IReadOnlyList<SessionEntry> Stored(RunningPages pages) =>
        Read(pages, reader => EntryTable.Between(reader, Madder, DateTimeOffset.MinValue, DateTimeOffset.MaxValue));

    private static T Read<T>(RunningPages pages, Func<VatWatch.Store.StoreReader, T> read)
    {
        using var reader = pages.LogBook.Store.OpenReader();
        return read(reader);
    }
}
