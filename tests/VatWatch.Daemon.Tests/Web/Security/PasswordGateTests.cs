using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class PasswordGateTests
{
    private static readonly PasswordHash Hash = PasswordHash.Of("woad and weld");
    private static readonly WebOptions Guarded = new() { Listen = new(IPAddress.Loopback, 0), Password = Hash };

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
        Assert.Equal("Basic", Assert.Single(reply.Headers.WwwAuthenticate).Scheme);
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
    public async Task The_sixth_wrong_password_is_told_to_wait()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), Guarded, time: new FakeTimeProvider());
        using var browser = pages.Browser();
        for (var i = 0; i < LoginThrottle.TriesPerAddress; i++)
        {
            using var wrong = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "guess"));
            Assert.Equal(HttpStatusCode.Unauthorized, wrong.StatusCode);
        }

        using var reply = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "woad and weld"));

        Assert.Equal(HttpStatusCode.TooManyRequests, reply.StatusCode);
        Assert.Contains("Wait a minute", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
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

    private static AuthenticationHeaderValue Basic(string pair) => new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes(pair)));
}
