using System.Net;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Web.Api;
using VatWatch.Daemon.Web.Security;

namespace VatWatch.Daemon.Tests.Web.Api;

public sealed class EventStreamTests
{
    [Fact]
    public async Task Measurements_conditions_and_alarms_arrive_as_events()
    {
        var scenes = new Scenes().Overheat();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        using var lines = await FollowAsync(browser);
        await UntilAsync(() => scenes.Feed.Followers == 1);

        scenes.Feed.Tell(scenes.Feed.Vats[0].Latest[0]);
        scenes.Feed.Tell(scenes.Feed.Vats[0].Condition);
        scenes.Feed.Tell(scenes.Feed.Vats[0].Alarms[0]);

        Assert.StartsWith("""data: {"vat":"madder-lane","probe":"madder-lane-liquor","measures":"temperature",""", await DataAfterAsync(lines, "event: measurement"), StringComparison.Ordinal);
        Assert.Contains("\"state\":\"too hot\"", await DataAfterAsync(lines, "event: condition"), StringComparison.Ordinal);
        Assert.Contains("\"alarm\":\"overheat\"", await DataAfterAsync(lines, "event: alarm"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_idle_line_gets_a_comment_every_15_s()
    {
        var scenes = new Scenes().Ready();
        var time = new FakeTimeProvider();
        await using var pages = await RunningPages.StartAsync(scenes, time: time);
        using var browser = pages.Browser();
        using var lines = await FollowAsync(browser);
        await UntilAsync(() => scenes.Feed.Followers == 1);

        // The timer is set just after the follower is counted: turn the clock on until the comment comes.
        var comment = LineAsync(lines, ": still here");
        while (!comment.IsCompleted)
        {
            time.Advance(EventStream.Heartbeat);
            await Task.WhenAny(comment, Task.Delay(20, TestContext.Current.CancellationToken));
        }

        Assert.True(await comment);
    }

    [Fact]
    public async Task A_follower_that_hangs_up_is_forgotten()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using (var browser = pages.Browser())
        {
            using var lines = await FollowAsync(browser);
            await UntilAsync(() => scenes.Feed.Followers == 1);
        }

        await UntilAsync(() => scenes.Feed.Followers == 0);
    }

    [Fact]
    public async Task Past_the_most_followers_the_next_is_asked_to_come_later()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        var followers = new List<StreamReader>();
        for (var i = 0; i < EventStream.MostFollowers; i++)
        {
            followers.Add(await FollowAsync(browser));
        }

        using var reply = await browser.GetAsync("/api/events", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, reply.StatusCode);
        followers.ForEach(one => one.Dispose());
    }

    [Fact]
    public async Task With_passwords_nobody_takes_the_places_of_others()
    {
        var scenes = new Scenes().Ready();
        var (viewers, operators) = (ApiToken.Make("press", Role.Viewer), ApiToken.Make("switchboard", Role.Operator));
        await using var pages = await RunningPages.StartAsync(
            scenes, new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(PasswordHash.Of("woad and weld", 1), PasswordHash.Of("only looking on", 1)), Tokens = [viewers.Line, operators.Line] });
        using var session = pages.Browser();
        using var _ = await Forms.SubmitAsync(session, "/login", "/login", ("password", "woad and weld"));
        using var viewer = pages.Browser();
        viewer.DefaultRequestHeaders.Authorization = new("Bearer", viewers.Token);
        var followers = new List<StreamReader>();
        for (var i = 0; i < EventStream.MostOfOne; i++)
        {
            followers.Add(await FollowAsync(viewer));
        }

        using var ninth = await viewer.GetAsync("/api/events", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ninth.StatusCode);
        Assert.Contains("You have 8 pages or programs", await ninth.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        followers.Add(await FollowAsync(session));
        followers.ForEach(one => one.Dispose());
    }

    [Fact]
    public async Task Who_signs_out_follows_no_longer_also_in_another_tab()
    {
        var scenes = new Scenes().Ready();
        await using var pages = await RunningPages.StartAsync(scenes, new() { Listen = new(IPAddress.Loopback, 0), Passwords = new(PasswordHash.Of("woad and weld", 1)) });
        using var session = pages.Browser();
        using var _ = await Forms.SubmitAsync(session, "/login", "/login", ("password", "woad and weld"));
        using var lines = await FollowAsync(session);
        await UntilAsync(() => scenes.Feed.Followers == 1);
        using var signedOut = await Forms.SubmitAsync(session, "/", "/logout");

        scenes.Feed.Tell(scenes.Feed.Vats[0].Latest[0]);
        var rest = await lines.ReadToEndAsync(TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(10), TestContext.Current.CancellationToken);
        Assert.DoesNotContain("event:", rest, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_daemon_stops_without_waiting_for_followers()
    {
        var scenes = new Scenes().Ready();
        var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        using var lines = await FollowAsync(browser);
        await UntilAsync(() => scenes.Feed.Followers == 1);

        await pages.DisposeAsync().AsTask().WaitAsync(TimeSpan.FromSeconds(10), TestContext.Current.CancellationToken);
    }

    private static async Task<StreamReader> FollowAsync(HttpClient browser)
    {
        var reply = await browser.GetAsync("/api/events", HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        Assert.Equal("text/event-stream", reply.Content.Headers.ContentType!.MediaType);
        return new(await reply.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken));
    }

    private static async Task<string> DataAfterAsync(StreamReader lines, string name)
    {
        Assert.True(await LineAsync(lines, name));
        return await lines.ReadLineAsync(TestContext.Current.CancellationToken) ?? "";
    }

    private static async Task<bool> LineAsync(StreamReader lines, string wanted)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        patience.CancelAfter(TimeSpan.FromSeconds(10));
        while (await lines.ReadLineAsync(patience.Token) is { } line)
        {
            if (line == wanted)
            {
                return true;
            }
        }

        return false;
    }

    private static async Task UntilAsync(Func<bool> holds)
    {
        for (var i = 0; !holds(); i++)
        {
            Assert.True(i < 500, "it did not happen within 10 s");
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }
}
