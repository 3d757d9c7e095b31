using System.Text;
using System.Text.Json;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Webhook;
using VatWatch.Testing;
using VatWatch.Testing.Servers;

namespace VatWatch.Tests.Notifications.Webhook;

/// <summary>Requests to a real web server in another process.</summary>
[Trait("Starts", "processes")]
public sealed class WebhookDeliveryTests : IDisposable
{
    private const string Key = "hook-7-1772403300000";
    private static readonly WebhookTimings Short = new() { Request = TimeSpan.FromSeconds(2), Connect = TimeSpan.FromSeconds(2) };
    private readonly string _secret = Path.GetTempFileName();

    public WebhookDeliveryTests() => File.WriteAllText(_secret, "right-horse\n");

    public void Dispose() => File.Delete(_secret);

    [Fact]
    public async Task An_alarm_is_posted_as_a_cloud_event_whose_signature_python_can_check()
    {
        await using var server = await WebServer.StartAsync();
        var outcome = await SendAsync(server.Port, "/vats?key=3", _secret);
        Assert.Equal((DeliveryKind.Taken, $"http://127.0.0.1:{server.Port} answered 204"), (outcome.Kind, outcome.Words));
        var request = Assert.Single(await server.WaitForAsync(1));
        Assert.Equal("/vats?key=3", request.Path);
        Assert.Equal("application/cloudevents+json; charset=utf-8", request.Headers["content-type"]);
        using var json = JsonDocument.Parse(request.Body);
        var root = json.RootElement;

        // The attributes that CloudEvents 1.0.2 requires (§ Required attributes), and ours.
        Assert.Equal(
            ["1.0", Key, "/vatwatch/hill-studio", "vatwatch.alarm", "madder-lane/overheat", "2026-03-01T22:15:00.000Z", "application/json"],
            new[] { "specversion", "id", "source", "type", "subject", "time", "datacontenttype" }.Select(name => root.GetProperty(name).GetString()));
        var data = root.GetProperty("data");
        Assert.Equal("Madder Lane vat: 121.0 °F, limit 120 °F.", data.GetProperty("sentence").GetString());
        Assert.Equal(("unacknowledged", "critical", 121.0), (data.GetProperty("alarm").GetProperty("state").GetString(), data.GetProperty("alarm").GetProperty("priority").GetString(), data.GetProperty("alarm").GetProperty("value").GetDouble()));

        Assert.Equal("https://vats.example/vats/madder-lane/alarms/overheat", data.GetProperty("page").GetString());
        Assert.Equal("Switch the heater off at the plug.", data.GetProperty("alarm").GetProperty("action").GetString());

        var target = $"http://127.0.0.1:{server.Port}/vats?key=3";
        var created = await VerifyAsync(request, target);
        Assert.Equal(0, created.ExitCode);
        Assert.InRange(DateTimeOffset.UtcNow.ToUnixTimeSeconds() - long.Parse(created.Output, System.Globalization.CultureInfo.InvariantCulture), 0, 60);
        Assert.NotEqual(0, (await VerifyAsync(request, target + "1")).ExitCode);
        Assert.NotEqual(0, (await VerifyAsync(request with { Body = [.. request.Body, (byte)' '] }, target)).ExitCode);
    }

    [Fact]
    public async Task Without_a_secret_there_is_no_signature_and_a_sentence_about_no_alarm_is_a_message()
    {
        await using var server = await WebServer.StartAsync();
        await using var delivery = Delivery(server.Port, "/", null);
        await delivery.SendAsync(SampleNotifications.TooHot() with { Document = null }, Key, TestContext.Current.CancellationToken);
        var request = Assert.Single(await server.WaitForAsync(1));
        Assert.DoesNotContain("signature", request.Headers.Keys);
        Assert.Contains("\"type\":\"vatwatch.message\"", Encoding.UTF8.GetString(request.Body), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("503 Retry-After 7", DeliveryKind.Later, 7, false)]
    [InlineData("429 Retry-After 120", DeliveryKind.Later, 120, false)]
    [InlineData("500", DeliveryKind.Later, null, false)]
    [InlineData("401", DeliveryKind.Later, null, true)]
    [InlineData("404", DeliveryKind.Later, null, true)]
    [InlineData("302 Location /elsewhere", DeliveryKind.Later, null, true)]
    [InlineData("422", DeliveryKind.Never, null, false)]
    public async Task Answers_are_judged_by_their_code_and_a_redirect_is_not_followed(string answer, DeliveryKind kind, int? waitSeconds, bool needsPerson)
    {
        await using var server = await WebServer.StartAsync();
        await server.TellAsync($"answer {answer}");
        var outcome = await SendAsync(server.Port, "/vats?key=3", null);
        Assert.Equal((kind, waitSeconds, needsPerson), (outcome.Kind, (int?)outcome.Wait?.TotalSeconds, outcome.NeedsPerson));
        Assert.StartsWith($"http://127.0.0.1:{server.Port} answered {answer[..3]}", outcome.Words, StringComparison.Ordinal);
        Assert.DoesNotContain("key", outcome.Words, StringComparison.Ordinal);
        Assert.Single(await server.WaitForAsync(1));
    }

    [Fact]
    public async Task A_date_to_wait_for_is_understood()
    {
        await using var server = await WebServer.StartAsync();
        await server.TellAsync($"answer 503 Retry-After {DateTimeOffset.UtcNow.AddMinutes(10):R}");
        Assert.InRange((await SendAsync(server.Port, "/", null)).Wait!.Value, TimeSpan.FromMinutes(9), TimeSpan.FromMinutes(10));
    }

    [Fact]
    public async Task A_server_that_hangs_floods_or_is_not_there_is_bounded()
    {
        await using var server = await WebServer.StartAsync();
        await server.TellAsync("answer 500");
        await server.TellAsync("flood on");
        var flooded = await SendAsync(server.Port, "/", null);
        Assert.Equal(DeliveryKind.Later, flooded.Kind);
        Assert.InRange(flooded.Words.Length, 100, 300);
        await server.TellAsync("hang on");
        var hung = await SendAsync(server.Port, "/", null);
        Assert.Equal((DeliveryKind.Later, $"http://127.0.0.1:{server.Port}: no answer within 2 s"), (hung.Kind, hung.Words));
        var absent = FreePort.Next();
        Assert.Equal($"http://127.0.0.1:{absent}: nothing listens there", (await SendAsync(absent, "/", null)).Words);
    }

    [Fact]
    public async Task A_secret_that_has_gone_is_named_and_nothing_is_sent_unsigned()
    {
        await using var server = await WebServer.StartAsync();
        var outcome = await SendAsync(server.Port, "/", "/nowhere/secret");
        Assert.Equal((DeliveryKind.Later, true, "secretFile: there is no file /nowhere/secret"), (outcome.Kind, outcome.NeedsPerson, outcome.Words));
        Assert.Empty(server.Requests);
    }

    /// <summary>By a program that shares nothing with ours.</summary>
    private static async Task<ToolRun> VerifyAsync(WebServer.TakenRequest request, string target)
    {
        var file = Path.GetTempFileName();
        await File.WriteAllTextAsync(file, JsonSerializer.Serialize(new
        {
            method = "POST",
            url = target,
            headers = request.Headers,
            body = Convert.ToBase64String(request.Body),
            secret = "right-horse",
        }), TestContext.Current.CancellationToken);
        var run = await ToolRun.RunAsync("sh", ["-c", $"/usr/bin/python3 {SourceTree.At("tests", "VatWatch.Testing", "Servers", "verify_signature.py")} < {file}"]);
        File.Delete(file);
        return run;
    }

    private static WebhookDelivery Delivery(int port, string path, string? secret)
    {
        var options = new WebhookOptions(new($"http://127.0.0.1:{port}{path}"), secret);
        return new(options, "hill-studio", SampleNotifications.Dyer with { Id = "hook", Way = new ContactWay.Webhook(options) }, SampleNotifications.Pages, Short, TimeProvider.System);
    }

    private static async Task<DeliveryOutcome> SendAsync(int port, string path, string? secret)
    {
        await using var delivery = Delivery(port, path, secret);
        return await delivery.SendAsync(SampleNotifications.TooHot(), Key, TestContext.Current.CancellationToken);
    }
}
