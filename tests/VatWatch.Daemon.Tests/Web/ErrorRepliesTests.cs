using System.Net;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using VatWatch.Daemon.Web;

namespace VatWatch.Daemon.Tests.Web;

public sealed class ErrorRepliesTests
{
    [Fact]
    public async Task An_unknown_address_gives_a_plain_page()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/vat/typo", TestContext.Current.CancellationToken);
        var html = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
        Assert.Equal("text/html", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains("There is nothing at this address.", html, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("GET", "/api/nothing", HttpStatusCode.NotFound)]
    [InlineData("GET", "/api/vats/typo", HttpStatusCode.NotFound)]
    [InlineData("DELETE", "/api/vats", HttpStatusCode.MethodNotAllowed)]
    public async Task Programs_get_problem_details(string method, string path, HttpStatusCode status)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var request = new HttpRequestMessage(new(method), path);

        using var reply = await browser.SendAsync(request, TestContext.Current.CancellationToken);
        var body = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Equal(status, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains($"\"status\":{(int)status}", body, StringComparison.Ordinal);
        Assert.Contains("\"detail\":\"", body, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/", "text/html")]
    [InlineData("/api/vats", "application/problem+json")]
    public async Task A_fault_of_ours_shows_no_stack_trace(string path, string type)
    {
        var scenes = new Scenes();
        scenes.Feed.Vats = null!;
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync(path, TestContext.Current.CancellationToken);
        var body = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.InternalServerError, reply.StatusCode);
        Assert.Equal(type, reply.Content.Headers.ContentType!.MediaType);
        Assert.DoesNotContain("   at ", body, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_is_hung_up_on_in_the_middle_of_a_body_is_no_fault_of_ours()
    {
        var log = new CountingLog();
        var request = new DefaultHttpContext();

        await new ErrorReplies(log).GuardAsync(request, _ => throw new TaskCanceledException("aborted", new ConnectionAbortedException("every place for this address is taken")));

        Assert.Equal(0, log.Lines);
    }

    private sealed class CountingLog : ILogger<ErrorReplies>
    {
        public int Lines { get; private set; }

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Lines++;
    }
}
