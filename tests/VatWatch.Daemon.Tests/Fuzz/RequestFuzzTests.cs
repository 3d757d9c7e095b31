using System.Net;
using System.Text;
using Microsoft.AspNetCore.Routing;
using VatWatch.Daemon.Tests.Web;
using VatWatch.Daemon.Web.Security;
using VatWatch.Testing.Fuzz;

namespace VatWatch.Daemon.Tests.Fuzz;

/// <summary>Mutated bodies, uploads and cookies sent over a real connection. Each answer is a plain refusal or done, never a failure of ours.</summary>
public sealed class RequestFuzzTests
{
    private const int Few = 400;

    private static readonly string[] Bodies =
    [
        """{"by":"Ada"}""", """{"by":"Ada","minutes":20,"reason":"probe out for cleaning"}""", """{"by":"Ada","text":"the lid was closed"}""",
        """{"by":"Ada","yarnGrams":900,"fibre":"protein","shade":"mid blue","verdict":"good"}""", """{"by":"Ada","kind":"added","material":"soda-ash","amount":50}""",
        """{"by":"Ada","kind":"dip-in"}""", """{"by":"Ada","kind":"note","text":"x"}""", "[[[[[[[[[[[[[[[[", "null", "\"x\"",
    ];

    [Fact]
    public async Task Every_mutated_body_is_answered_plainly_on_every_route_that_takes_one()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        (HttpMethod Method, string Path)[] routes =
        [
            .. from route in pages.Routes
               let pattern = route.RoutePattern.RawText!
               where pattern.StartsWith("/api", StringComparison.Ordinal) && !pattern.EndsWith("/test", StringComparison.Ordinal)
               from method in route.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? []
               where method is "POST" or "PUT"
               select (new HttpMethod(method), string.Join('/', pattern.Split('/').Select(part => part switch { "{vat}" => "madder-lane", "{alarm}" => "overheat", _ => part.Contains('{', StringComparison.Ordinal) ? "1" : part }))),
        ];
        Assert.True(routes.Length >= 10, $"{routes.Length} routes");
        var turn = 0;
        await HoldAsync(Mutants.Of([.. Bodies.Select(Encoding.UTF8.GetBytes)]), async bytes =>
        {
            var (method, path) = routes[turn++ % routes.Length];
            using var content = new ByteArrayContent(bytes);
            content.Headers.ContentType = new("application/json");
            using var request = new HttpRequestMessage(method, path) { Content = content };
            using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);
            await CheckPlainAsync(reply, $"{method} {path}");
        });
    }

    [Fact]
    public async Task Every_mutated_upload_is_answered_plainly()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat(), new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(PasswordHash.Of("woad and weld", 1)) });
        using var browser = pages.Browser();
        using var entered = await Forms.SubmitAsync(browser, "/login", "/login", ("password", "woad and weld"));
        var page = await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken);
        var mark = page.IndexOf("name=\"__RequestVerificationToken\" value=\"", StringComparison.Ordinal);
        var token = page[(mark + 41)..page.IndexOf('"', mark + 41)];
        (string Name, string Value)[] fields = [("__RequestVerificationToken", token), ("kind", "photo"), ("by", "Ada"), ("text", "mid blue")];
        var form = string.Join("\r\n", fields.Select(field => $"--edge\r\nContent-Disposition: form-data; name=\"{field.Name}\"\r\n\r\n{field.Value}"))
            + "\r\n--edge\r\nContent-Disposition: form-data; name=\"picture\"; filename=\"p.jpg\"\r\nContent-Type: image/jpeg\r\n\r\n";
        byte[] sound = [.. Encoding.UTF8.GetBytes(form), 0xFF, 0xD8, 0xFF, .. new byte[500], .. "\r\n--edge--\r\n"u8];
        var turn = 0;
        await HoldAsync(Mutants.Of((byte[][])[sound]), async bytes =>
        {
            using var content = new ByteArrayContent(bytes);
            content.Headers.TryAddWithoutValidation("Content-Type", "multipart/form-data; boundary=edge");
            // Few of them, since each wrong password makes the next one wait longer.
            var to = turn++ % 300 == 0 ? "/login" : "/vats/madder-lane/entries";
            using var reply = await browser.PostAsync(to, content, TestContext.Current.CancellationToken);
            await CheckPlainAsync(reply, $"upload to {to}");
        });
    }

    [Fact]
    public async Task No_mutated_cookie_or_token_comes_in()
    {
        var (press, line) = ApiToken.Make("press", Role.Operator);
        await using var pages = await RunningPages.StartAsync(
            new Scenes().Ready(), new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(PasswordHash.Of("woad and weld", 1)), Tokens = [line] });
        using var signedIn = pages.Browser();
        using var entered = await Forms.SubmitAsync(signedIn, "/login", "/login", ("password", "woad and weld"));
        var cookie = entered.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith(PasswordGate.Scheme, StringComparison.Ordinal)).Split(';')[0];
        using var stranger = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = pages.Address };
        Assert.Equal(HttpStatusCode.OK, await AskAsync(stranger, "Cookie", cookie));
        Assert.Equal(HttpStatusCode.OK, await AskAsync(stranger, "Authorization", $"Bearer {press}"));
        await HoldAsync(Mutants.Of((string[])[cookie, $"Bearer {press}", "Basic x", "Digest y"]), async text =>
        {
            var header = text.StartsWith("vatwatch", StringComparison.Ordinal) ? "Cookie" : "Authorization";
            if (text.StartsWith(cookie, StringComparison.Ordinal) || text.Trim() == $"Bearer {press}" || text.Any(one => char.IsControl(one) || !char.IsAscii(one)))
            {
                return;
            }

            var status = await AskAsync(stranger, header, text);
            Assert.True(status is HttpStatusCode.Unauthorized or HttpStatusCode.TooManyRequests or HttpStatusCode.BadRequest or HttpStatusCode.RequestHeaderFieldsTooLarge, $"{status}");
        });
    }

    private static async Task<HttpStatusCode> AskAsync(HttpClient visitor, string header, string value)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/vats");
        request.Headers.TryAddWithoutValidation(header, value);
        using var reply = await visitor.SendAsync(request, TestContext.Current.CancellationToken);
        return reply.StatusCode;
    }

    private static async Task CheckPlainAsync(HttpResponseMessage reply, string asked)
    {
        var text = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True((int)reply.StatusCode < 500, $"{asked} answered {reply.StatusCode}");
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
    }

    /// <summary>The property's requests wait for a server; the runner of cases does not.</summary>
    private static async Task HoldAsync<T>(CsCheck.Gen<T> cases, Func<T, Task> property)
    {
        var made = new List<T>();
        Cases.Hold(cases, Few, made.Add, _ => "");
        for (var at = 0; at < made.Count; at++)
        {
            try
            {
                await property(made[at]);
            }
            catch (Exception wrong)
            {
                throw new InvalidOperationException($"case {at}: {wrong.Message}\n{(made[at] is byte[] bytes ? Cases.Show(bytes) : made[at])}", wrong);
            }
        }
    }
}
