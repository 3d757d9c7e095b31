using System.Text;
using Microsoft.AspNetCore.Routing;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Web.Security;

/// <summary>Names that strangers send never become names of files: every route is asked with names that lead to a file which nobody has any business with.</summary>
public sealed class PathNamesTests : IDisposable
{
    private const string Content = "nobody-has-any-business-with-this";
    private readonly string _folder = Directory.CreateTempSubdirectory("forbidden-").FullName;

    public PathNamesTests()
    {
        File.WriteAllText(Path.Combine(_folder, "secret.txt"), Content);
        File.WriteAllText(Path.Combine(_folder, "secret"), Content);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_file_that_is_opened_or_made_is_noticed()
    {
        using var opened = new OpenedFiles(_folder);
        File.ReadAllText(Path.Combine(_folder, "secret.txt"));
        File.WriteAllText(Path.Combine(_folder, "made"), "");
        Assert.Contains("secret.txt", opened.Names);
        Assert.Contains("made", opened.Names);
    }

    [Fact]
    public async Task No_name_in_a_path_a_query_a_form_or_an_upload_opens_or_makes_a_file()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        using var opened = new OpenedFiles(_folder);
        using var besideProgram = new OpenedFiles(AppContext.BaseDirectory);
        var asked = 0;

        foreach (var route in pages.Routes.Select(route => (Pattern: route.RoutePattern.RawText!.TrimStart('/'), Methods: route.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"])))
        {
            foreach (var name in Names)
            {
                foreach (var method in route.Methods.Where(_ => !route.Pattern.EndsWith("/events", StringComparison.Ordinal)))
                {
                    var path = string.Join('/', route.Pattern.Split('/').Select(part => part.Contains('{', StringComparison.Ordinal) ? Filled(part, name) : part));
                    await AskAsync(browser, new(method), $"/{path}", null);
                    await AskAsync(browser, new(method), $"/{Plain(route.Pattern)}?from={name}&to={name}&file={name}&path={name}&size={name}&range={name}&before={name}&a={name}&b={name}&by={name}&weeks={name}&ready={name}", null);
                    asked += 2;
                }
            }
        }

        Assert.True(asked > 1000, $"{asked} requests");
        Assert.Empty(opened.Names);
        Assert.DoesNotContain(besideProgram.Names, IsOneOfOurs);
    }

    [Fact]
    public async Task No_form_field_and_no_name_of_an_upload_opens_or_makes_a_file()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        _ = await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken);
        using var opened = new OpenedFiles(_folder);
        using var elsewhere = new OpenedFiles(AppContext.BaseDirectory, Path.GetTempPath());
        byte[] picture = [0xFF, 0xD8, 0xFF, .. new byte[300_000]];

        foreach (var name in Names.Select(Uri.UnescapeDataString))
        {
            string[] fields = ["by", "kind", "text", "shade", "yarn", "fibre", "from", "entry", "material", "amount", "picture"];
            using var written = await Forms.SubmitAsync(browser, "/vats/madder-lane", "/entries", [.. fields.Select(field => (field, name))]);
            Assert.True((int)written.StatusCode < 500);
            using var uploaded = await UploadAsync(browser, name, picture);
            Assert.True((int)uploaded.StatusCode < 500);
        }

        // Other programs of this machine use the folder for temporary files too; a picture of ours would lie there under the framework's name, or its own.
        Assert.Empty(opened.Names);
        Assert.DoesNotContain(elsewhere.Names, name => name.StartsWith("ASPNETCORE", StringComparison.Ordinal) || IsOneOfOurs(name));
    }

    private static bool IsOneOfOurs(string name) =>
        name.StartsWith("secret", StringComparison.Ordinal) || name.Contains("passwd", StringComparison.Ordinal) || name.Contains("aaa", StringComparison.Ordinal) || name is "con" or "environ";

    private string[] Names
    {
        get
        {
            var up = string.Concat(Enumerable.Repeat("../", 12)) + $"{_folder}/secret.txt".TrimStart('/');
            string[] raw = [up, $"{_folder}/secret.txt", $"{_folder}/secret", $"file://{_folder}/secret.txt", up.Replace('/', '\\'), $"x\0{up}", $"{_folder}/secret.txt\0.png", "/etc/passwd", "/proc/self/environ", "~/secret", new string('a', 3000), "con", ".", ".."];
            return
            [
                .. raw.Select(Uri.EscapeDataString),
                .. raw.Take(4).Select(name => Uri.EscapeDataString(Uri.EscapeDataString(name))),
                .. raw.Take(4).Select(name => name.Replace("../", "%2e%2e/", StringComparison.Ordinal)),
                .. raw.Take(4).Select(name => name.Replace("/", "%2f", StringComparison.Ordinal).Replace(".", "%2e", StringComparison.Ordinal)),
                "..%c0%af..%c0%afetc%c0%afpasswd", "%ff%fe", "....//....//etc/passwd",
            ];
        }
    }

    private static string Filled(string part, string name) => part.StartsWith('{') ? name : $"{part[..part.IndexOf('{', StringComparison.Ordinal)]}{name}";

    private static string Plain(string pattern) => string.Join('/', pattern.Split('/').Select(part => part.Contains('{', StringComparison.Ordinal) ? "madder-lane" : part));

    private static async Task AskAsync(HttpClient browser, HttpMethod method, string path, HttpContent? content)
    {
        // As written: the usual way tidies up what a stranger would not.
        if (!Uri.TryCreate(browser.BaseAddress + path.TrimStart('/'), new UriCreationOptions { DangerousDisablePathAndQueryCanonicalization = true }, out var address))
        {
            return;
        }

        using var request = new HttpRequestMessage(method, address) { Content = content };
        using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);
        var text = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True((int)reply.StatusCode < 500, $"{method} {path} answered {reply.StatusCode}");
        Assert.DoesNotContain(Content, text, StringComparison.Ordinal);
        Assert.DoesNotContain("root:x:", text, StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> UploadAsync(HttpClient browser, string name, byte[] picture)
    {
        var page = await browser.GetStringAsync("/vats/madder-lane", TestContext.Current.CancellationToken);
        var mark = page.IndexOf("name=\"__RequestVerificationToken\" value=\"", StringComparison.Ordinal);
        var token = page[(mark + 41)..page.IndexOf('"', mark + 41)];
        const string line = "----edge";
        var head = new StringBuilder();
        foreach (var (field, value) in (ReadOnlySpan<(string, string)>)[("__RequestVerificationToken", token), ("kind", "photo"), ("by", "Ada")])
        {
            head.Append($"--{line}\r\nContent-Disposition: form-data; name=\"{field}\"\r\n\r\n{value}\r\n");
        }

        head.Append($"--{line}\r\nContent-Disposition: form-data; name=\"picture\"; filename=\"{name.Replace("\0", "", StringComparison.Ordinal)}\"\r\nContent-Type: image/jpeg\r\n\r\n");
        using var content = new ByteArrayContent([.. Encoding.UTF8.GetBytes(head.ToString()), .. picture, .. Encoding.UTF8.GetBytes($"\r\n--{line}--\r\n")]);
        content.Headers.TryAddWithoutValidation("Content-Type", $"multipart/form-data; boundary={line}");
        return await browser.PostAsync("/vats/madder-lane/entries", content, TestContext.Current.CancellationToken);
    }
}
