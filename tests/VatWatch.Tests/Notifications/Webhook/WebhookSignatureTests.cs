using System.Text;
using VatWatch.Notifications.Webhook;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Webhook;

[Trait("Starts", "processes")]
public sealed class WebhookSignatureTests
{
    private const long Time = 1772403301;
    private const string Secret = "keep-the-lid-on";
    private static readonly string Page = File.ReadAllText(SourceTree.At("src", "VatWatch", "Notifications", "Webhook", "FORMAT.md"));

    /// <summary>The worked example of FORMAT.md beside the code; openssl is the referee.</summary>
    [Fact]
    public async Task The_example_of_the_format_page_is_what_openssl_makes_of_it()
    {
        var (body, lines) = (Between("```json\n"), Between("```text\n"));
        var (digest, input, signature) = WebhookSignature.Of(
            Secret, "barn", Time, new("https://hooks.example/vats"), "application/cloudevents+json; charset=utf-8", Encoding.UTF8.GetBytes(body));
        Assert.Equal($"sha-256=:{await OpenSslAsync(body)}:", digest);
        Assert.Equal($"vatwatch=:{await OpenSslAsync(lines, "-hmac", Secret)}:", signature);
        Assert.EndsWith($"\"@signature-params\": {input["vatwatch=".Length..]}", lines, StringComparison.Ordinal);
        Assert.Contains($"\n    Content-Digest: {digest}\n    Signature-Input: {input}\n    Signature: {signature}\n", Page, StringComparison.Ordinal);
    }

    [Fact]
    public void The_example_of_the_format_page_is_what_is_sent()
    {
        var alarm = SampleNotifications.TooHot();
        var sent = CloudEvent.Of(alarm, "barn-7-1772403300000", "hill-studio", "barn", SampleNotifications.Pages.Of(alarm));
        Assert.Equal(Between("```json\n"), Encoding.UTF8.GetString(sent));
    }

    private static string Between(string fence) => Page.Split(fence)[1].Split("\n```")[0];

    private static async Task<string> OpenSslAsync(string text, params string[] key)
    {
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, text, TestContext.Current.CancellationToken);
        var run = await ToolRun.RequireAsync("sh", ["-c", $"openssl dgst -sha256 -binary {string.Join(' ', key)} {file} | base64 -w 0"]);
        File.Delete(file);
        return run.Output;
    }
}
