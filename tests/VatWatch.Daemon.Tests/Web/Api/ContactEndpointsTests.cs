using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Webhook;
using VatWatch.Testing.Servers;

namespace VatWatch.Daemon.Tests.Web.Api;

/// <summary>Trying a contact out over HTTP, with a real web server as its far side.</summary>
[Trait("Starts", "processes")]
public sealed class ContactEndpointsTests
{
    [Fact]
    public async Task A_test_message_is_sent_and_its_answer_told_but_not_in_quick_succession()
    {
        await using var hook = await WebServer.StartAsync();
        var time = new FakeTimeProvider();
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), time: time, contacts: Book(hook.Port));
        using var browser = pages.Browser();

        using var sent = await browser.PostAsync("/api/contacts/barn/test", null, TestContext.Current.CancellationToken);
        var reply = await sent.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken);
        Assert.Equal(
            ("barn", "webhook", true, $"http://127.0.0.1:{hook.Port} answered 204"),
            (reply.GetProperty("contact").GetString(), reply.GetProperty("way").GetString(), reply.GetProperty("sent").GetBoolean(), reply.GetProperty("answer").GetString()));
        await hook.WaitForAsync(1);

        using var soon = await browser.PostAsync("/api/contacts/barn/test", null, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.TooManyRequests, soon.StatusCode);
        time.Advance(TimeSpan.FromSeconds(10));
        await hook.TellAsync("answer 500");
        using var later = await browser.PostAsync("/api/contacts/barn/test", null, TestContext.Current.CancellationToken);
        Assert.False((await later.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken)).GetProperty("sent").GetBoolean());
    }

    [Fact]
    public async Task An_unknown_contact_and_another_sites_page_are_refused()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready(), contacts: Book(1));
        using var browser = pages.Browser();
        using var unknown = await browser.PostAsync("/api/contacts/nobody/test", null, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, unknown.StatusCode);
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/api/contacts/barn/test");
        foreign.Headers.Add("Origin", "http://elsewhere.example");
        using var refused = await browser.SendAsync(foreign, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
    }

    private static ContactTable Book(int port) => new(
        [new Contact { Id = "barn", Name = "The barn", Way = new ContactWay.Webhook(new WebhookOptions(new($"http://127.0.0.1:{port}/"), null)), Units = DisplayUnits.Us }], null);
}
