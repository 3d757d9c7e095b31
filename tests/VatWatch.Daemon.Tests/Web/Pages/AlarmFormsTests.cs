using System.Net;
using VatWatch.Alarms;

namespace VatWatch.Daemon.Tests.Web.Pages;

public sealed class AlarmFormsTests
{
    private const string Overheat = "/vats/madder-lane/alarms/overheat/acknowledge";

    [Fact]
    public async Task The_form_acknowledges_goes_back_and_remembers_the_name()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", "overheat", ("by", "Ada"));

        Assert.Equal(HttpStatusCode.SeeOther, reply.StatusCode);
        Assert.Equal("/", reply.Headers.Location!.OriginalString);
        Assert.Equal(new AlarmAct(AlarmActKind.Acknowledge, new("madder-lane"), new("overheat"), "Ada", "page"), Assert.Single(pages.Desk.Taken));
        Assert.Contains("value=\"Ada\"", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task From_the_vats_page_it_goes_back_there()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/vats/madder-lane", "overheat", ("by", "Ada"));

        Assert.Equal("/vats/madder-lane", reply.Headers.Location!.OriginalString);
    }

    [Fact]
    public async Task An_alarm_of_the_daemon_itself_can_be_acknowledged()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().ProbeSilent());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", "broker-lost", ("by", "Ada"));

        Assert.Equal("daemon", Assert.Single(pages.Desk.Taken).Vat.Value);
    }

    [Fact]
    public async Task An_alarm_that_is_acknowledged_already_has_no_form()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        Assert.DoesNotContain("redox-rising/acknowledge", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_the_token_nothing_is_acknowledged()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        using var form = new FormUrlEncodedContent([new("by", "Ada")]);

        using var reply = await browser.PostAsync(Overheat, form, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task Without_a_name_nothing_is_acknowledged()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", "overheat", ("by", "   "));

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task What_is_gone_meanwhile_is_told()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        pages.Desk.Answer = _ => Task.FromResult(false);
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", "overheat", ("by", "Ada"));

        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
    }

    [Fact]
    public async Task A_name_of_another_script_is_taken_and_shown_as_text()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", "overheat", ("by", "Æsa <b>藍</b>"), ("from", "https://evil.example"));

        Assert.Equal("Æsa <b>藍</b>", Assert.Single(pages.Desk.Taken).By);
        Assert.Equal("/", reply.Headers.Location!.OriginalString);
        Assert.DoesNotContain("<b>", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
