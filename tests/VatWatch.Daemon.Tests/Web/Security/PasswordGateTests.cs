using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Web.Security;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class PasswordGateTests
{
    private static readonly PasswordHash Hash = PasswordHash.Of("woad and weld", 1);
    private static readonly PasswordHash ViewerHash = PasswordHash.Of("only looking on", 1);
    private static readonly (string Token, ApiToken Line) Reader = ApiToken.Make("press", Role.Viewer);
    private static readonly (string Token, ApiToken Line) Writer = ApiToken.Make("switchboard", Role.Operator);
    private static readonly WebOptions Guarded = new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(Hash, ViewerHash), Tokens = [Reader.Line, Writer.Line] };

    [Theory]
    [InlineData("/")]
    [InlineData("/vats/madder-lane")]
    [InlineData("/vats/madder-lane/chart.svg")]
    [InlineData("/alarms")]
    [InlineData("/nothing-here")]
    public async Task A_stranger_is_sent_to_the_login_page(string path)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync(path, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Found, reply.StatusCode);
        Assert.Equal("/login?from=" + Uri.EscapeDataString(path), reply.Headers.Location!.OriginalString);
        Assert.DoesNotContain("Madder", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/vats")]
    [InlineData("/api/events")]
    [InlineData("/api/openapi.json")]
    [InlineData("/API/vats")]
    [InlineData("/metrics")]
    public async Task A_program_without_password_gets_401(string path)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync(path, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Unauthorized, reply.StatusCode);
        Assert.Equal(["Basic", "Bearer"], reply.Headers.WwwAuthenticate.Select(one => one.Scheme));
    }

    [Fact]
    public async Task A_program_with_the_password_gets_in_and_with_a_wrong_one_does_not()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        browser.DefaultRequestHeaders.Authorization = Basic("collector:woad and weld");
        Assert.Contains("madder-lane", await browser.GetStringAsync("/api/vats", TestContext.Current.CancellationToken), StringComparison.Ordinal);

        browser.DefaultRequestHeaders.Authorization = Basic("collector:wrong");
        using var reply = await browser.GetAsync("/api/vats", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Unauthorized, reply.StatusCode);
    }

    [Fact]
    public async Task Supervisors_may_ask_without_password_but_learn_no_details()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        Assert.Equal("alive\n", await browser.GetStringAsync("/health/live", TestContext.Current.CancellationToken));
        Assert.Equal("""{"ready":true,"stages":[]}""", await browser.GetStringAsync("/health/ready", TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Signing_in_goes_to_the_wanted_page_and_out_again_shuts_it()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        using var signedIn = await Forms.SubmitAsync(browser, "/login?from=/vats/madder-lane", "/login", ("password", "woad and weld"));
        Assert.Equal(HttpStatusCode.SeeOther, signedIn.StatusCode);
        Assert.Equal("/vats/madder-lane", signedIn.Headers.Location!.OriginalString);
        var cookie = signedIn.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith(PasswordGate.Scheme, StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Madder Lane vat", await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken), StringComparison.Ordinal);

        using var signedOut = await Forms.SubmitAsync(browser, "/", "/logout");
        using var after = await browser.GetAsync("/", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Found, after.StatusCode);
    }

    [Fact]
    public async Task A_login_never_leads_to_another_site()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();

        using var signedIn = await Forms.SubmitAsync(browser, "/login?from=//evil.example/", "/login", ("password", "woad and weld"), ("from", "https://evil.example/"));

        Assert.Equal("/", signedIn.Headers.Location!.OriginalString);
    }

    [Fact]
    public async Task After_many_wrong_passwords_the_right_one_waits_and_a_second_is_told_so()
    {
        var time = new FakeTimeProvider();
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded, time: time);
        using var browser = pages.Browser();
        for (var i = 0; i < LoginThrottle.FreeTries; i++)
        {
            using var wrong = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "guess"));
            Assert.Equal(HttpStatusCode.Unauthorized, wrong.StatusCode);
        }

        var right = Forms.SubmitAsync(browser, "/login", "/login", ("password", "woad and weld"));
        await Eventually.TrueAsync(() => pages.Throttle.Delayed == 1, "the right one waits");
        using var other = pages.Browser();
        using var second = await Forms.SubmitAsync(other, "/login", "/login", ("password", "guess"));
        Assert.Equal(HttpStatusCode.TooManyRequests, second.StatusCode);
        Assert.Contains("still waiting", await second.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);

        while (!right.IsCompleted)
        {
            time.Advance(TimeSpan.FromSeconds(1));
            await Task.WhenAny(right, Task.Delay(20, TestContext.Current.CancellationToken));
        }

        Assert.Equal(HttpStatusCode.SeeOther, (await right).StatusCode);
    }

    [Fact]
    public async Task A_copy_of_the_cookie_opens_nothing_after_signing_out()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();
        using var signedIn = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "woad and weld"));
        var cookie = signedIn.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith(PasswordGate.Scheme, StringComparison.Ordinal)).Split(';')[0];
        Assert.Equal(HttpStatusCode.OK, await WithCookieAsync(pages, cookie));

        using var signedOut = await Forms.SubmitAsync(browser, "/", "/logout");

        Assert.Equal(HttpStatusCode.Found, await WithCookieAsync(pages, cookie));
    }

    [Fact]
    public async Task A_login_without_the_token_of_the_form_is_refused()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();
        using var form = new FormUrlEncodedContent([new("password", "woad and weld")]);

        using var reply = await browser.PostAsync("/login", form, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.False(reply.Headers.TryGetValues("Set-Cookie", out var cookies) && cookies.Any(one => one.StartsWith(PasswordGate.Scheme, StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_token_reads_and_only_an_operators_token_changes()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), Guarded);
        using var browser = pages.Browser();

        browser.DefaultRequestHeaders.Authorization = new("Bearer", Reader.Token);
        Assert.Contains("madder-lane", await browser.GetStringAsync("/api/vats", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Forbidden, await AcknowledgeAsync(browser));
        Assert.Empty(pages.Desk.Taken);

        browser.DefaultRequestHeaders.Authorization = new("Bearer", Writer.Token);
        Assert.Equal(HttpStatusCode.OK, await AcknowledgeAsync(browser));

        browser.DefaultRequestHeaders.Authorization = new("Bearer", Writer.Token + "x");
        Assert.Equal(HttpStatusCode.Unauthorized, await AcknowledgeAsync(browser));
    }

    [Fact]
    public async Task Who_came_in_by_what_and_who_did_not_is_in_the_log_and_no_address_that_was_asked_for_steers_it()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded);
        using var browser = pages.Browser();
        using var wrong = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "guess"));
        using var right = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "woad and weld"));
        using var signedOut = await Forms.SubmitAsync(browser, "/", "/logout");
        using var program = pages.Browser();
        program.DefaultRequestHeaders.Authorization = new("Bearer", Writer.Token + "x");
        using var stranger = await program.GetAsync("/api/vats", TestContext.Current.CancellationToken);
        program.DefaultRequestHeaders.Authorization = new("Bearer", Writer.Token);
        using var read = await program.GetAsync("/api/vats", TestContext.Current.CancellationToken);
        using var changed = await program.PostAsync("/api/vats/x%0A22:30:00%20Alarm%1B[2J%E2%80%AE", null, TestContext.Current.CancellationToken);

        Assert.Equal(
            [
                "Wrong password from 127.0.0.1",
                "Signed in as operator from 127.0.0.1",
                "Signed out from 127.0.0.1; the session is over",
                "A token that is none of ours, from 127.0.0.1",
                $"Token {Writer.Line.Name} (operator) is used from 127.0.0.1",
                $"POST /api/vats/x%0A22:30:00%20Alarm%1B%5B2J%E2%80%AE by token {Writer.Line.Name} from 127.0.0.1",
            ],
            pages.Log.Lines);
    }

    [Fact]
    public async Task A_viewer_sees_the_alarm_but_no_form_and_an_operator_sees_both()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), Guarded);
        using var viewer = pages.Browser();
        using var _ = await Forms.SubmitAsync(viewer, "/login", "/login", ("password", "only looking on"));
        var seen = await viewer.GetStringAsync("/", TestContext.Current.CancellationToken);
        Assert.Contains("liquor is 121.3", seen, StringComparison.Ordinal);
        Assert.DoesNotContain("/acknowledge", seen, StringComparison.Ordinal);

        using var operators = pages.Browser();
        using var __ = await Forms.SubmitAsync(operators, "/login", "/login", ("password", "woad and weld"));
        Assert.Contains("/acknowledge", await operators.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whatever_changes_something_is_refused_to_viewers_and_strangers_on_every_route()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), Guarded);
        using var viewer = pages.Browser();
        using var _ = await Forms.SubmitAsync(viewer, "/login", "/login", ("password", "only looking on"));
        using var stranger = pages.Browser();
        var changes = Changes(pages);
        Assert.True(changes.Count >= 2, $"{changes.Count} routes change something");

        foreach (var (method, path) in changes)
        {
            using var toViewer = await viewer.SendAsync(new(method, path), TestContext.Current.CancellationToken);
            Assert.True(toViewer.StatusCode == HttpStatusCode.Forbidden, $"{method} {path} answered a viewer {toViewer.StatusCode}");
            using var toStranger = await stranger.SendAsync(new(method, path), TestContext.Current.CancellationToken);
            Assert.True(toStranger.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Found, $"{method} {path} answered a stranger {toStranger.StatusCode}");
        }
    }

    [Fact]
    public async Task Whatever_changes_something_is_refused_from_another_sites_page_on_every_route()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        browser.DefaultRequestHeaders.Add("Origin", "http://evil.example");

        foreach (var (method, path) in Changes(pages))
        {
            using var reply = await browser.SendAsync(new(method, path), TestContext.Current.CancellationToken);
            Assert.True(reply.StatusCode == HttpStatusCode.Forbidden, $"{method} {path} answered {reply.StatusCode}");
        }
    }

    [Fact]
    public async Task Every_form_is_refused_without_its_token()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        foreach (var (method, path) in Changes(pages).Where(change => !change.Path.StartsWith("/api", StringComparison.Ordinal)))
        {
            using var request = new HttpRequestMessage(method, path) { Content = new FormUrlEncodedContent([new("by", "Ada"), new("text", "x")]) };
            using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.True(reply.StatusCode == HttpStatusCode.BadRequest, $"{method} {path} answered {reply.StatusCode}");
        }

        Assert.Empty(pages.Desk.Taken);
    }

    private static async Task<HttpStatusCode> WithCookieAsync(RunningPages pages, string cookie)
    {
        using var thief = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = pages.Address };
        thief.DefaultRequestHeaders.Add("Cookie", cookie);
        using var reply = await thief.GetAsync("/", TestContext.Current.CancellationToken);
        return reply.StatusCode;
    }

    private static List<(HttpMethod Method, string Path)> Changes(RunningPages pages) =>
    [
        .. from route in pages.Routes
           let methods = route.Metadata.GetMetadata<Microsoft.AspNetCore.Routing.HttpMethodMetadata>()?.HttpMethods ?? []
           from method in methods
           where method is not ("GET" or "HEAD") && !(route.RoutePattern.RawText is "/login" or "/logout")
           select (new HttpMethod(method), string.Join('/', route.RoutePattern.RawText!.Split('/').Select(part => part.Contains('{', StringComparison.Ordinal) ? "1" : part))),
    ];

    private static async Task<HttpStatusCode> AcknowledgeAsync(HttpClient browser)
    {
        using var body = new StringContent("""{"by":"Ada"}""", Encoding.UTF8, "application/json");
        using var reply = await browser.PostAsync("/api/vats/madder-lane/alarms/overheat/acknowledge", body, TestContext.Current.CancellationToken);
        return reply.StatusCode;
    }

    private static AuthenticationHeaderValue Basic(string pair) => new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes(pair)));
}
