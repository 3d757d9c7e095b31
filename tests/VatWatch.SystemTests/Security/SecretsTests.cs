using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;
using VatWatch.Testing.Servers;

namespace VatWatch.SystemTests.Security;

/// <summary>
/// The built binary with a secret in every file that a configuration can name, among servers that refuse it, until it is aborted: none of the secrets is in
/// anything that it wrote, said, sent or kept.
/// </summary>
public sealed partial class SecretsTests : IDisposable
{
    private const string Note = "a-note-that-must-be-found";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private static readonly string[] Pages =
    [
        "/", "/vats/weld-yard", "/alarms", "/settings", "/sessions", "/dosing", "/calibration", "/vats/weld-yard/alarms/overheat", "/plan", "/vats/weld-yard/chart", "/metrics",
        "/health/ready", "/api/vats", "/api/vats/weld-yard", "/api/alarms", "/api/alarms/figures", "/api/vats/weld-yard/sessions", "/api/vats/weld-yard/entries", "/api/openapi.json", "/nothing", "/api/nothing",
    ];

    private readonly Studio _studio = new();
    private readonly StudioCertificates _certificates = new();
    private readonly WrittenSecrets _secrets = new();
    private readonly string _files = Directory.CreateTempSubdirectory("secrets-").FullName;
    private readonly List<(string Where, byte[] Bytes)> _written = [];

    public void Dispose()
    {
        _studio.Dispose();
        _certificates.Dispose();
        Directory.Delete(_files, recursive: true);
    }

    [Fact]
    public async Task No_secret_is_in_anything_that_it_writes_says_sends_or_keeps()
    {
        var (mqtt, operators, viewers) = (_secrets.Plant("mqtt"), _secrets.Plant("operator"), _secrets.Plant("viewer"));
        var (wrongPassword, wrongToken, urlKey) = (_secrets.Plant("wrong-password"), _secrets.Plant("wrong-token"), _secrets.Plant("url-key"));
        var (token, line) = WrittenSecrets.Token("press");
        _secrets.Plant("token", token);
        await using var broker = await MosquittoBroker.StartAsync(new() { User = "watch", Password = mqtt });
        await using var mail = await MailServer.StartAsync(user: "vats", password: "something else");
        await using var influx = await RecordingInflux.StartAsync();
        influx.Token = "something else";
        await using var hook = await WebServer.StartAsync();
        await hook.TellAsync("answer 500");
        await using var instrument = await PtyInstrument.AskedAsync();
        Configure(instrument.Port, broker.Port, mail.Port, influx.Port, hook.Port, mqtt, WrittenSecrets.HashOf(operators), WrittenSecrets.HashOf(viewers), line, urlKey);
        using var phone = await MosquittoSub.StartAsync(new(broker.Port, "watch", mqtt), "#", awaitReady: false);

        await using (var watch = VatWatchProcess.Start("run", "--config", _studio.Config))
        {
            await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Patience);
            Assert.False(watch.HasExited, watch.Errors);
            await instrument.TellAsync("set T 55");
            await VisitAsync(operators, viewers, token, wrongPassword, wrongToken);
            await hook.WaitForAsync(1, Patience);
            await phone.WaitForAsync("vatwatch/test-studio/weld-yard/notification", null, Patience);
            await Eventually.TrueAsync(() => !influx.Writes.IsEmpty, "it tries to copy", Patience);
            await Eventually.TrueAsync(() => watch.Output.Contains("smtp", StringComparison.OrdinalIgnoreCase), "the mail server refuses", Patience);
            await VerbsAsync("backup", Path.Combine(_studio.Folder, "copy.db"), "--config", _studio.Config);
            Keep("environment", await File.ReadAllBytesAsync($"/proc/{watch.Id}/environ", TestContext.Current.CancellationToken));
            Keep("command line", await File.ReadAllBytesAsync($"/proc/{watch.Id}/cmdline", TestContext.Current.CancellationToken));
            await AbortAsync(watch);
            Keep("output", watch.Output + watch.Errors);
        }

        foreach (var verb in (string[][])[["check"], ["notify", "--all"], ["alarms", "--journal"], ["report", "--vat", "weld-yard", "--out", At("night.html")], ["report", "--vat", "weld-yard", "--out", At("night.csv")], ["verify"]])
        {
            await VerbsAsync([.. verb, "--config", _studio.Config]);
        }

        Keep("topics", string.Join('\n', phone.Messages));
        Keep("points", string.Join('\n', influx.Writes.SelectMany(write => write.Lines.Prepend(write.Query))));
        foreach (var request in hook.Requests)
        {
            Keep("webhook", [.. Encoding.UTF8.GetBytes(string.Join('\n', request.Headers)), .. request.Body]);
        }

        foreach (var file in Directory.EnumerateFiles(_studio.Folder, "*", SearchOption.AllDirectories).Where(file => file != _studio.Config && Path.GetFileName(file) != "vatwatch.sock"))
        {
            Keep(Path.GetRelativePath(_studio.Folder, file), await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken));
        }

        Judge();
    }

    /// <summary>The note went the way of everything that is written, so it is where a secret would be; and no secret is.</summary>
    private void Judge()
    {
        var control = new WrittenSecrets();
        control.Plant("note", Note);
        var told = _written.Where(one => control.In(one.Bytes).Count > 0).Select(one => one.Where).ToHashSet();
        Assert.Contains("/vats/weld-yard", told);
        Assert.Contains("copy.db", told);
        Assert.Contains(told, where => where.StartsWith("data/vatwatch.db", StringComparison.Ordinal));
        Assert.True(_written.Count > 40, $"{_written.Count} things were looked at");
        Assert.Empty(_written.SelectMany(one => _secrets.In(one.Bytes).Select(found => $"{one.Where}: {found}")));
    }

    private void Configure(string port, int broker, int mail, int influx, int hook, string mqtt, string operators, string viewers, string tokenLine, string urlKey)
    {
        var key = File.ReadAllText(_certificates.ServerKey);
        _secrets.Plant("tls-key", key.Split('\n')[1]);
        _secrets.Plant("operator-hash", operators.Split('$')[^1]);
        _secrets.Plant("viewer-hash", viewers.Split('$')[^1]);
        _secrets.Plant("token-hash", tokenLine.Split('$')[^1]);
        _studio.WriteBenchConfig(port, $$"""{ "broker": "mqtt://127.0.0.1:{{broker}}", "user": "watch", "passwordFile": {{Secret("mqtt", mqtt)}} }""", alarms: """{ "overheat": { "onDelay": "2 s" } }""");
        File.WriteAllText(_studio.Config, File.ReadAllText(_studio.Config).Replace($$"""{ "listen": "{{_studio.Url}}" }""", $$"""
            { "listen": "https://127.0.0.1:{{_studio.WebPort}}", "certificateFile": {{JsonSerializer.Serialize(_certificates.ServerCertificate)}}, "keyFile": {{JsonSerializer.Serialize(_certificates.ServerKey)}},
              "passwordFile": {{Secret("operators", operators)}}, "viewerPasswordFile": {{Secret("viewers", viewers)}}, "tokenFile": {{Secret("tokens", tokenLine)}} }
            """, StringComparison.Ordinal));
        _studio.Add($$"""
            "mail": { "server": "smtp://127.0.0.1:{{mail}}", "from": "vats@studio.example", "security": "none", "user": "vats", "passwordFile": {{Secret("mail")}} },
            "influx": { "url": "http://127.0.0.1:{{influx}}", "plainHttp": true, "org": "studio", "bucket": "vats", "tokenFile": {{Secret("influx")}}, "every": "1 s" },
            "watches": [ { "site": "far-shed", "broker": "mqtt://127.0.0.1:{{broker}}", "user": "watch", "passwordFile": {{Secret("far-watch")}} } ],
            "contacts": [
              { "id": "phone", "way": "mqtt" }, { "id": "dyer", "way": "mail", "address": "dyer@studio.example" },
              { "id": "hook", "way": "webhook", "url": "http://127.0.0.1:{{hook}}/vats?key={{Uri.EscapeDataString(urlKey)}}", "secretFile": {{Secret("hook")}} } ]
            """);
    }

    /// <summary>Makes a file with a secret of its own, or with that one; its name as JSON.</summary>
    private string Secret(string name, string? secret = null)
    {
        var file = Path.Combine(_files, name);
        File.WriteAllText(file, (secret ?? _secrets.Plant(name)) + "\n");
        return JsonSerializer.Serialize(file);
    }

    private async Task VisitAsync(string operators, string viewers, string token, string wrongPassword, string wrongToken)
    {
        using var visitor = Browser();
        await SignInAsync(visitor, wrongPassword);
        await AskAsync(visitor, "/api/vats", new("Bearer", wrongToken));
        await AskAsync(visitor, "/api/vats", new("Bearer", token));
        await AskAsync(visitor, "/api/vats", new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"collector:{wrongPassword}"))));
        await AskAsync(visitor, "/api/vats", new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"collector:{viewers}"))));
        await AskAsync(visitor, $"/{Uri.EscapeDataString(wrongToken)[..20]}");
        using var dyer = Browser();
        await SignInAsync(dyer, operators);
        using var note = new StringContent($$"""{"by":"Ada","kind":"note","text":"{{Note}}"}""", Encoding.UTF8, "application/json");
        using var begun = await dyer.PostAsync("/api/vats/weld-yard/entries", note, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, begun.StatusCode);
        foreach (var page in Pages)
        {
            await AskAsync(dyer, page);
        }

        using var nothing = new StringContent("{}", Encoding.UTF8, "application/json");
        using var tested = await dyer.PostAsync("/api/contacts/dyer/test", nothing, TestContext.Current.CancellationToken);
        Keep("test of a contact", await tested.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Contains("smtp://", Encoding.UTF8.GetString(_written[^1].Bytes), StringComparison.Ordinal);
    }

    private async Task SignInAsync(HttpClient browser, string password)
    {
        var page = await browser.GetStringAsync("/login", TestContext.Current.CancellationToken);
        using var form = new FormUrlEncodedContent([.. Hidden().Matches(page).Select(match => KeyValuePair.Create(match.Groups["name"].Value, WebUtility.HtmlDecode(match.Groups["value"].Value))), new("password", password)]);
        using var reply = await browser.PostAsync("/login", form, TestContext.Current.CancellationToken);
        Keep("login", reply.Headers + await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    private async Task AskAsync(HttpClient browser, string path, AuthenticationHeaderValue? who = null)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Authorization = who;
        using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.True((int)reply.StatusCode < 500, $"{path} answered {reply.StatusCode}");
        Keep(path, reply.Headers + await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    private HttpClient Browser() => new(new HttpClientHandler { AllowAutoRedirect = false, ServerCertificateCustomValidationCallback = HttpClientHandler.DangerousAcceptAnyServerCertificateValidator })
    {
        BaseAddress = new($"https://127.0.0.1:{_studio.WebPort}"),
        Timeout = Patience,
    };

    private async Task VerbsAsync(params string[] arguments)
    {
        var (_, output, errors) = await VatWatchProcess.RunAsync(Patience, arguments);
        Keep($"vatwatch {arguments[0]}", output + errors);
    }

    /// <summary>The runtime passes over the first such signal that comes from outside and ends at the second.</summary>
    private static async Task AbortAsync(VatWatchProcess watch)
    {
        for (var signals = 0; signals < 2 && !watch.HasExited; signals++)
        {
            UnixSignal.Send(watch.Id, UnixSignal.Abort);
            await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        }

        Assert.NotEqual(0, await watch.ExitCodeAsync(Patience));
    }

    private string At(string file) => Path.Combine(_studio.Folder, file);

    private void Keep(string where, byte[] bytes) => _written.Add((where, bytes));

    private void Keep(string where, string text) => Keep(where, Encoding.UTF8.GetBytes(text));

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]*)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex Hidden();
}
