using System.Net;
using System.Text;
using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;

namespace VatWatch.Daemon.Tests.Web.Api;

public sealed class ApiEndpointsTests
{
    private const string Acknowledge = "/api/vats/madder-lane/alarms/overheat/acknowledge";

    [Fact]
    public async Task Every_vat_is_listed_with_condition_measurements_and_alarms()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        var vats = await GetAsync(pages, "/api/vats");

        Assert.Equal(2, vats.GetArrayLength());
        Assert.Equal("too hot", vats[0].GetProperty("condition").GetProperty("state").GetString());
        Assert.Equal(49.6, vats[0].GetProperty("condition").GetProperty("temperatureC").GetDouble());
        var liquor = vats[0].GetProperty("measurements")[0];
        Assert.Equal(("temperature", "°C", "good", 3.0),
            (liquor.GetProperty("measures").GetString(), liquor.GetProperty("unit").GetString(), liquor.GetProperty("quality").GetString(), liquor.GetProperty("ageSeconds").GetDouble()));
        Assert.Equal(JsonValueKind.Null, vats[1].GetProperty("condition").GetProperty("timeToLimit").GetProperty("lateMinutes").ValueKind);
        Assert.Equal(95, vats[1].GetProperty("condition").GetProperty("timeToLimit").GetProperty("earlyMinutes").GetDouble());
    }

    [Fact]
    public async Task A_missing_value_is_null_with_its_reason()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().ProbeSilent());
        var liquor = (await GetAsync(pages, "/api/vats/madder-lane")).GetProperty("measurements")[0];

        Assert.Equal(JsonValueKind.Null, liquor.GetProperty("value").ValueKind);
        Assert.Equal("missing", liquor.GetProperty("quality").GetString());
        Assert.Equal("no reply within 1 s", liquor.GetProperty("reason").GetString());
    }

    [Fact]
    public async Task A_number_that_JSON_has_no_word_for_is_null()
    {
        var scenes = new Scenes().Ready();
        var live = scenes.Feed.Vats[0];
        scenes.Feed.Vats = [live with { Latest = [live.Latest[0] with { Value = double.NaN, Raw = double.PositiveInfinity, Quality = Quality.Fault, Reason = "not a number" }] }];
        await using var pages = await RunningPages.StartAsync(scenes);

        var liquor = (await GetAsync(pages, "/api/vats/madder-lane")).GetProperty("measurements")[0];

        Assert.Equal(JsonValueKind.Null, liquor.GetProperty("value").ValueKind);
        Assert.Equal(JsonValueKind.Null, liquor.GetProperty("raw").ValueKind);
    }

    [Fact]
    public async Task Alarms_have_the_members_of_the_alarm_topic_and_how_they_were_set_aside_and_the_weightiest_is_first()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        var alarms = await GetAsync(pages, "/api/alarms");

        Assert.Equal(["overheat", "redox-rising"], alarms.EnumerateArray().Select(alarm => alarm.GetProperty("alarm").GetString()));
        string[] members = ["alarm", "vat", "state", "priority", "since", "value", "limit", "unit", "text", "action", "acknowledgedBy", "acknowledgedAt", "setAsideBy", "setAsideBecause", "shelvedUntil", "onDisk"];
        Assert.Equal(members, alarms[0].EnumerateObject().Select(member => member.Name));
        Assert.Equal("Ada", alarms[1].GetProperty("acknowledgedBy").GetString());
    }

    [Fact]
    public async Task An_acknowledgement_reaches_the_desk()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());

        using var reply = await PostAsync(pages, """{"by":" Ada "}""");

        Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        Assert.Equal(new AlarmAct(AlarmActKind.Acknowledge, new("madder-lane"), new("overheat"), "Ada", "api"), Assert.Single(pages.Desk.Taken));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("""{"by":7}""")]
    [InlineData("""{"by":"  "}""")]
    [InlineData("""{"by":"1234567890123456789012345678901234567890123456789012345678901"}""")]
    public async Task A_body_without_a_usable_name_is_refused_with_an_example(string body)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());

        using var reply = await PostAsync(pages, body);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains("An example", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task Nothing_to_acknowledge_is_a_conflict()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        pages.Desk.Answer = _ => Task.FromResult(false);

        using var reply = await PostAsync(pages, """{"by":"Ada"}""");

        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Origin", "http://evil.example")]
    [InlineData("Origin", "null")]
    public async Task Another_sites_page_cannot_acknowledge(string header, string value)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());

        using var reply = await PostAsync(pages, """{"by":"Ada"}""", header, value);

        Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task A_form_of_another_site_cannot_pass_for_JSON()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        using var body = new StringContent("""{"by":"Ada"}""", Encoding.UTF8, "text/plain");

        using var reply = await browser.PostAsync(Acknowledge, body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.UnsupportedMediaType, reply.StatusCode);
    }

    [Fact]
    public async Task Shelving_and_notes_reach_the_desk_too()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        using var shelving = new StringContent("""{"by":"Ada","minutes":20,"reason":"probe out"}""", Encoding.UTF8, "application/json");
        using var note = new StringContent("""{"by":"Ada","text":"all well"}""", Encoding.UTF8, "application/json");

        using var shelved = await browser.PostAsync("/api/vats/madder-lane/alarms/overheat/shelve", shelving, TestContext.Current.CancellationToken);
        using var noted = await browser.PostAsync("/api/vats/madder-lane/note", note, TestContext.Current.CancellationToken);

        Assert.Contains("overheat of madder-lane is shelved for 20 min.", await shelved.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, noted.StatusCode);
        Assert.Equal(
            [("overheat", TimeSpan.FromMinutes(20), "probe out"), ("note", TimeSpan.Zero, "all well")], pages.Desk.Taken.Select(act => (act.Alarm.Value, act.For, act.Text!)));
    }

    [Theory]
    [InlineData("", 4)]
    [InlineData("?weeks=2", 2)]
    public async Task Figures_are_given_week_by_week(string query, int weeks)
    {
        var scenes = new Scenes().Overheat();
        await using var pages = await RunningPages.StartAsync(scenes);
        pages.History.Changes.Add(new(AlarmState.Normal, scenes.Alarm("cold", AlarmPriority.Medium, AlarmState.Unacknowledged, "Cold.", "Warm it."), scenes.Clock.Now().Plus(TimeSpan.FromHours(-1)), null, true));

        var figures = await GetAsync(pages, $"/api/alarms/figures{query}");

        Assert.Equal(weeks, figures.GetArrayLength());
        Assert.Equal([1, 0], figures.EnumerateArray().Take(2).Select(week => week.GetProperty("count").GetInt32()));
        Assert.Equal("cold", figures[0].GetProperty("mostFrequent")[0].GetProperty("alarm").GetString());
    }

    [Theory]
    [InlineData("0")]
    [InlineData("27")]
    [InlineData("many")]
    public async Task A_number_of_weeks_that_cannot_be_is_refused(string weeks)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync($"/api/alarms/figures?weeks={weeks}", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
    }

    [Fact]
    public async Task The_interface_describes_itself()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        var document = await GetAsync(pages, "/api/openapi.json");

        var paths = document.GetProperty("paths").EnumerateObject().Select(path => path.Name).Order(StringComparer.Ordinal);
        Assert.Equal(
            ["/api/alarms", "/api/alarms/figures", "/api/contacts/{id}/test", "/api/events", "/api/vats", "/api/vats/{vat}",
                .. Enum.GetValues<AlarmActKind>().Select(kind => $"/api/vats/{{vat}}/alarms/{{alarm}}/{kind.Word()}").Order(StringComparer.Ordinal),
                "/api/vats/{vat}/chart", "/api/vats/{vat}/dip-outlook", "/api/vats/{vat}/entries", "/api/vats/{vat}/entries/{entry}/withdraw", "/api/vats/{vat}/heating", "/api/vats/{vat}/note",
                "/api/vats/{vat}/photos", "/api/vats/{vat}/sessions", "/api/vats/{vat}/sessions/end", "/api/vats/{vat}/sessions/open", "/api/vats/{vat}/sessions/{id}",
                "/api/vats/{vat}/sessions/{id}/join", "/api/vats/{vat}/sessions/{id}/take-out",
                "/health/live", "/health/ready", "/metrics"], paths);
        var ids = document.GetProperty("paths").EnumerateObject().SelectMany(path => path.Value.EnumerateObject())
            .Select(operation => operation.Value.TryGetProperty("operationId", out var id) ? id.GetString() : $"none: {operation.Value}").ToList();
        Assert.All(ids, id => Assert.Matches("^[a-z]+[A-Za-z]+$", id));
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.True(document.GetProperty("components").GetProperty("schemas").TryGetProperty("VatReply", out var vat));
        Assert.True(vat.GetProperty("properties").TryGetProperty("condition", out _));
        Assert.Equal(["token", "password", "session"], document.GetProperty("components").GetProperty("securitySchemes").EnumerateObject().Select(scheme => scheme.Name));
        Assert.Equal(3, document.GetProperty("security").GetArrayLength());
        Assert.True(document.GetProperty("security")[0].TryGetProperty("token", out _));
    }

    private static async Task<JsonElement> GetAsync(RunningPages pages, string path)
    {
        using var browser = pages.Browser();
        using var document = JsonDocument.Parse(await browser.GetStringAsync(path, TestContext.Current.CancellationToken));
        return document.RootElement.Clone();
    }

    private static async Task<HttpResponseMessage> PostAsync(RunningPages pages, string body, string? header = null, string value = "")
    {
        using var browser = pages.Browser();
        using var request = new HttpRequestMessage(HttpMethod.Post, Acknowledge) { Content = new StringContent(body, Encoding.UTF8, "application/json") };
        if (header is not null)
        {
            request.Headers.Add(header, value);
        }

        return await browser.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
