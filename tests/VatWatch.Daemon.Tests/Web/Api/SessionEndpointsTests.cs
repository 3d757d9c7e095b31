using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using SkiaSharp;
using VatWatch.Charts.Tests;
using VatWatch.Daemon.Tests.Web.Plans;

namespace VatWatch.Daemon.Tests.Web.Api;

public sealed class SessionEndpointsTests
{
    private const string Vat = "/api/vats/madder-lane";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_program_keeps_the_log_book_from_start_to_verdict()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var program = pages.Browser();

        var started = await SendAsync(program, "/sessions", """{"by":"Ada","yarnGrams":900,"fibre":"cellulose","shade":"mid blue"}""");
        Assert.Equal(("2026-03-04", 900.0, "cellulose"), (Word(started, "id"), started.GetProperty("yarnGrams").GetDouble(), Word(started, "fibre")));
        var slip = await SendAsync(program, "/entries", """{"by":"Ada","kind":"added","material":"soda-ash","amount":500}""");
        Assert.Equal("g", Word(slip, "unit"));
        await SendAsync(program, $"/entries/{slip.GetProperty("id").GetInt64()}/withdraw", """{"by":"Ada"}""");
        await SendAsync(program, "/entries", """{"by":"Ada","kind":"added","material":"water","amount":2.5,"text":"warm"}""");
        await SendAsync(program, "/entries", """{"by":"Ada","kind":"dip-in"}""");
        scenes.Time.Advance(TimeSpan.FromMinutes(9));
        await SendAsync(program, "/entries", """{"by":"Ada","kind":"dip-out"}""");
        await SendAsync(program, "/sessions/end", """{"by":"Ada","verdict":"good"}""");

        using var document = JsonDocument.Parse(await program.GetStringAsync($"{Vat}/sessions/2026-03-04", Cancel));
        var session = document.RootElement;
        Assert.Equal("good", Word(session, "verdict"));
        Assert.Equal(9, session.GetProperty("dips")[0].GetProperty("minutes").GetDouble());
        Assert.Equal("""{"water":2.5}""", session.GetProperty("added").GetRawText());
        Assert.Equal(4, session.GetProperty("entries").GetArrayLength());
        using var list = JsonDocument.Parse(await program.GetStringAsync($"{Vat}/sessions?count=5", Cancel));
        Assert.Equal(1, list.RootElement.GetArrayLength());
        using var entries = JsonDocument.Parse(await program.GetStringAsync($"{Vat}/entries?from=2026-03-04T00:00:00Z&to=2026-03-05T00:00:00Z", Cancel));
        Assert.Equal(4, entries.RootElement.GetArrayLength());
        using var none = await program.GetAsync($"{Vat}/sessions/open", Cancel);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Theory]
    [InlineData("""{"by":"Ada","kind":"added","material":"stock","amount":2,"strength":60}""", "stock", "L", 60.0)]
    [InlineData("""{"by":"Ada","kind":"added","material":"reducing-agent","amount":20,"strength":0.88}""", "reducing-agent", "g", 0.88)]
    [InlineData("""{"by":"Ada","kind":"drawn-off","amount":5}""", null, "L", null)]
    [InlineData("""{"by":"Ada","kind":"made-anew","amount":150}""", null, "L", null)]
    [InlineData("""{"by":"Ada","kind":"reading","reading":"temperature","amount":44}""", "temperature", "°C", null)]
    [InlineData("""{"by":"Ada","kind":"sign","sign":"flower","amount":9}""", "flower", null, null)]
    [InlineData("""{"by":"Ada","kind":"sign","sign":"drop","amount":12}""", "drop", "s", null)]
    [InlineData("""{"by":"Ada","kind":"goods","goods":"yarn","amount":500}""", "yarn", "g", null)]
    public async Task What_is_in_the_vat_is_written_down_with_its_unit(string body, string? subject, string? unit, double? strength)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var program = pages.Browser();
        var entry = await SendAsync(program, "/entries", body);
        var subjects = new[] { "material", "reading", "sign", "goods" }.Select(name => entry.GetProperty(name).GetString());
        Assert.Equal((subject, unit), (subjects.SingleOrDefault(one => one is not null), entry.GetProperty("unit").GetString()));
        Assert.Equal(strength, entry.GetProperty("strength").ValueKind == JsonValueKind.Null ? null : entry.GetProperty("strength").GetDouble());
        Assert.Equal(unit is null, entry.GetProperty("amount").ValueKind == JsonValueKind.Null);
    }

    [Theory]
    [InlineData("/entries", """{"by":"Ada","kind":"dip-out"}""", 409, "No yarn is in the vat")]
    [InlineData("/entries", """{"by":"Ada","kind":"photo"}""", 400, "kind is \"photo\"; wanted one of dip-in")]
    [InlineData("/entries", """{"by":"Ada","kind":"added","material":"salt","amount":3}""", 400, "material is \"salt\"; wanted one of soda-ash")]
    [InlineData("/entries", """{"by":"Ada","kind":"added","material":"water","amount":1e300}""", 409, "wanted more than 0")]
    [InlineData("/entries", """{"by":"Ada","kind":"sign","sign":"purple"}""", 400, "sign is \"purple\"; wanted one of flower")]
    [InlineData("/entries", """{"by":"Ada","kind":"sign","sign":"drop"}""", 409, "wanted more than 0")]
    [InlineData("/entries", """{"by":"Ada","kind":"reading","reading":"ph","amount":44}""", 409, "wanted 0 to 14")]
    [InlineData("/entries", """{"by":"Ada","kind":"added","material":"stock","amount":2,"strength":900}""", 409, "at most 300 g/L")]
    [InlineData("/entries", """{"by":"Ada"}""", 400, "kind is missing")]
    [InlineData("/entries", """{"kind":"dip-in"}""", 400, "a name of 1 to 60 characters")]
    [InlineData("/entries", "[]", 400, "no JSON object with the fields wanted")]
    [InlineData("/sessions", """{"by":"Ada","yarnGrams":-1}""", 409, "weight of the yarn is -1 g")]
    [InlineData("/sessions/end", """{"by":"Ada"}""", 409, "No session is open")]
    [InlineData("/entries/77/withdraw", """{"by":"Ada"}""", 409, "does not stand")]
    public async Task What_cannot_be_is_refused_with_problem_details(string path, string body, int status, string says)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var program = pages.Browser();
        using var reply = await program.PostAsync(Vat + path, Json(body), Cancel);
        Assert.Equal((status, "application/problem+json"), ((int)reply.StatusCode, reply.Content.Headers.ContentType!.MediaType));
        Assert.Contains(says, (await reply.Content.ReadFromJsonAsync<JsonElement>(Cancel)).GetProperty("detail").GetString()!, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/sessions")]
    [InlineData("/sessions/end")]
    [InlineData("/entries")]
    [InlineData("/entries/1/withdraw")]
    [InlineData("/photos?by=Ada")]
    public async Task Another_sites_page_may_change_nothing(string path)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var program = pages.Browser();
        using var request = new HttpRequestMessage(HttpMethod.Post, Vat + path) { Content = Json("""{"by":"Ada","kind":"dip-in"}""") };
        if (path.StartsWith("/photos", StringComparison.Ordinal))
        {
            request.Content.Headers.ContentType = new("image/png");
        }

        request.Headers.Add("Sec-Fetch-Site", "cross-site");
        using var reply = await program.SendAsync(request, Cancel);
        Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
    }

    [Fact]
    public async Task A_picture_is_drawn_afresh_and_bounded()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var program = pages.Browser();
        var jpeg = Pictures.HeldUpright(Pictures.Of(600, 400, SKEncodedImageFormat.Jpeg));

        var entry = await (await PhotographAsync(program, jpeg, "image/jpeg")).Content.ReadFromJsonAsync<JsonElement>(Cancel);
        using var kept = SKBitmap.Decode(await program.GetByteArrayAsync(Word(entry, "photo"), Cancel));
        Assert.Equal((400, 600), (kept.Width, kept.Height));
        Assert.Equal(HttpStatusCode.BadRequest, (await PhotographAsync(program, [1, 2, 3], "image/jpeg")).StatusCode);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, (await PhotographAsync(program, jpeg, "text/html")).StatusCode);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await PhotographAsync(program, new byte[9 * 1024 * 1024], "image/jpeg")).StatusCode);
    }

    [Fact]
    public async Task What_a_dip_will_do_is_told_with_its_assumptions()
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false, coldC: 44));
        using var program = pages.Browser();

        using var document = JsonDocument.Parse(await program.GetStringAsync($"{Vat}/dip-outlook?yarnGrams=2000", Cancel));
        var outlook = document.RootElement;
        Assert.InRange(outlook.GetProperty("dropK").GetProperty("low").GetDouble(), 0.4, 0.7);
        Assert.True(outlook.GetProperty("dropK").GetProperty("high").GetDouble() > outlook.GetProperty("dropK").GetProperty("low").GetDouble());
        Assert.Equal(4, outlook.GetProperty("assumptions").GetArrayLength());
        foreach (var (query, status) in new[] { ("", HttpStatusCode.BadRequest), ("?yarnGrams=NaN", HttpStatusCode.BadRequest), ("?yarnGrams=-3", HttpStatusCode.BadRequest) })
        {
            using var reply = await program.GetAsync($"{Vat}/dip-outlook{query}", Cancel);
            Assert.Equal(status, reply.StatusCode);
        }
    }

    [Fact]
    public async Task The_description_lists_the_log_book()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var program = pages.Browser();
        using var document = JsonDocument.Parse(await program.GetStringAsync("/api/openapi.json", Cancel));
        var paths = document.RootElement.GetProperty("paths");
        foreach (var path in new[] { "sessions", "sessions/open", "sessions/{id}", "sessions/end", "entries", "entries/{entry}/withdraw", "photos", "dip-outlook" })
        {
            Assert.True(paths.TryGetProperty($"/api/vats/{{vat}}/{path}", out _), path);
        }
    }

    private static StringContent Json(string body) => new(body, System.Text.Encoding.UTF8, "application/json");

    private static string Word(JsonElement element, string name) => element.GetProperty(name).GetString()!;

    private static async Task<JsonElement> SendAsync(HttpClient program, string path, string body)
    {
        using var reply = await program.PostAsync(Vat + path, Json(body), Cancel);
        var text = await reply.Content.ReadAsStringAsync(Cancel);
        Assert.True(reply.IsSuccessStatusCode, text);
        using var document = JsonDocument.Parse(text);
        return document.RootElement.Clone();
    }

    /// <summary>Asks before it sends the body, as programs do with large ones, so that a refusal is heard.</summary>
    private static Task<HttpResponseMessage> PhotographAsync(HttpClient program, byte[] bytes, string type)
    {
        var request = new HttpRequestMessage(HttpMethod.Post, $"{Vat}/photos?by=Ada&text=the+flower") { Content = new ByteArrayContent(bytes) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(type);
        request.Headers.ExpectContinue = true;
        return program.SendAsync(request, Cancel);
    }
}
