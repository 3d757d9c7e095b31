using System.Text;
using VatWatch.Notifications.Webhook;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Webhook;

[Trait("Starts", "processes")]
public sealed class WebhookSignatureTests
{
    private const long Time = 1772403301;
    private const string Secret = "keep-the-lid-on";

    /// <summary>The worked example of FORMAT.md beside the code; openssl is the referee.</summary>
    [Fact]
    public async Task The_example_of_the_format_page_is_what_openssl_makes_of_it()
    {
        var page = await File.ReadAllTextAsync(SourceTree.At("src", "VatWatch", "Notifications", "Webhook", "FORMAT.md"), TestContext.Current.CancellationToken);
        var body = page.Split("```json\n")[1].Split("\n```")[0];
        var signed = Path.GetTempFileName();
        await File.WriteAllTextAsync(signed, $"{Time}.{body}", TestContext.Current.CancellationToken);
        var openssl = await ToolRun.RequireAsync("openssl", ["dgst", "-sha256", "-hmac", Secret, "-r", signed]);
        File.Delete(signed);
        var expected = "sha256=" + openssl.Output.Split(' ')[0];
        Assert.Equal(expected, WebhookSignature.Of(Secret, Time, Encoding.UTF8.GetBytes(body)));
        Assert.Contains($"VatWatch-Signature: {expected}", page, StringComparison.Ordinal);
        Assert.Contains($"VatWatch-Time: {Time}", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_example_of_the_format_page_is_what_is_sent()
    {
        var page = await File.ReadAllTextAsync(SourceTree.At("src", "VatWatch", "Notifications", "Webhook", "FORMAT.md"), TestContext.Current.CancellationToken);
        Assert.Contains(Encoding.UTF8.GetString(CloudEvent.Of(SampleNotifications.TooHot(), "barn-7-1772403300000", "hill-studio", "barn")), page, StringComparison.Ordinal);
    }
}
