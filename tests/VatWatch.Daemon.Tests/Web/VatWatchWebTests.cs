using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace VatWatch.Daemon.Tests.Web;

public sealed class VatWatchWebTests
{
    [Fact]
    public async Task Pages_are_served_over_tls()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=hill-studio", key, HashAlgorithmName.SHA256);
        using var certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), new() { Listen = new(IPAddress.Loopback, 0), Certificate = certificate });
        using var browser = pages.Browser();

        Assert.Equal("https", pages.Address.Scheme);
        using var reply = await browser.GetAsync("/", TestContext.Current.CancellationToken);
        Assert.Contains("Madder Lane vat", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal("max-age=31536000", Assert.Single(reply.Headers.GetValues("Strict-Transport-Security")));
    }

    [Theory]
    [InlineData(null, false)]
    [InlineData("192.0.2.1", false)]
    [InlineData("127.0.0.1", true)]
    public async Task Only_the_named_proxy_is_believed(string? proxy, bool isBelieved)
    {
        await using var pages = await RunningPages.StartAsync(
            new Scenes().Ready(), new() { Listen = new(IPAddress.Loopback, 0), Proxy = proxy is null ? null : IPAddress.Parse(proxy) });
        using var browser = pages.Browser();
        browser.DefaultRequestHeaders.Add("X-Forwarded-For", "203.0.113.5, 198.51.100.4");
        browser.DefaultRequestHeaders.Add("X-Forwarded-Proto", "http, https");

        using var reply = await browser.GetAsync("/", TestContext.Current.CancellationToken);

        Assert.Equal(isBelieved, reply.Headers.Contains("Strict-Transport-Security"));
    }

    [Fact]
    public async Task A_foreign_host_name_is_refused_while_no_password_is_set()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/vats");
        request.Headers.Host = "rebound.example";

        using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/alarms")]
    [InlineData("/nothing-here")]
    [InlineData("/api/vats")]
    [InlineData("/assets/vatwatch.css")]
    public async Task Every_answer_carries_the_security_headers(string path)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync(path, TestContext.Current.CancellationToken);

        var policy = Assert.Single(reply.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(reply.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("DENY", Assert.Single(reply.Headers.GetValues("X-Frame-Options")));
        Assert.False(reply.Headers.Contains("Server"));
    }

    [Fact]
    public async Task A_body_past_64_KB_is_refused()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var body = new StringContent($$"""{"by":"{{new string('a', 70_000)}}"}""", System.Text.Encoding.UTF8, "application/json");

        using var reply = await browser.PostAsync("/api/vats/madder-lane/alarms/overheat/acknowledge", body, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, reply.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }
}
