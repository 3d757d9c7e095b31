using System.Net;
using VatWatch.Alarms.Acts;
using VatWatch.Daemon.Web.Alarms.Acts;

namespace VatWatch.Daemon.Tests.Web.Alarms.Acts;

public sealed class AlarmFormsTests
{
    private const string Overheat = "/vats/madder-lane/alarms/overheat/acknowledge";

    [Fact]
    public async Task The_form_acknowledges_goes_back_and_remembers_the_name()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", AlarmForms.AcknowledgePath, ("alarm", "madder-lane/overheat"), ("by", "Ada"));

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

        using var reply = await Forms.SubmitAsync(browser, "/vats/madder-lane", AlarmForms.AcknowledgePath, ("alarm", "madder-lane/overheat"), ("by", "Ada"));

        Assert.Equal("/vats/madder-lane", reply.Headers.Location!.OriginalString);
    }

    [Fact]
    public async Task An_alarm_of_the_daemon_itself_can_be_acknowledged()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().ProbeSilent());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", AlarmForms.AcknowledgePath, ("alarm", "daemon/broker-lost"), ("by", "Ada"));

        Assert.Equal("daemon", Assert.Single(pages.Desk.Taken).Vat.Value);
    }

    [Fact]
    public async Task An_alarm_that_is_acknowledged_already_has_no_form()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        Assert.DoesNotContain("value=\"madder-lane/redox-rising", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
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

        using var reply = await Forms.SubmitAsync(browser, "/", AlarmForms.AcknowledgePath, ("alarm", "madder-lane/overheat"), ("by", "   "));

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Empty(pages.Desk.Taken);
    }

    [Fact]
    public async Task What_is_gone_meanwhile_is_told()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        pages.Desk.Answer = _ => Task.FromResult(false);
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", AlarmForms.AcknowledgePath, ("alarm", "madder-lane/overheat"), ("by", "Ada"));

        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
    }

    [Fact]
    public async Task A_name_of_another_script_is_taken_and_shown_as_text()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/", AlarmForms.AcknowledgePath, ("alarm", "madder-lane/overheat"), ("by", "Æsa <b>藍</b>"), ("from", "https://evil.example"));

        Assert.Equal("Æsa <b>藍</b>", Assert.Single(pages.Desk.Taken).By);
        Assert.Equal("/", reply.Headers.Location!.OriginalString);
        Assert.DoesNotContain("<b>", await browser.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_page_of_an_alarm_shelves_it_with_time_and_reason_and_comes_back()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(
            browser, "/vats/madder-lane/alarms/overheat", "overheat/shelve", ("by", "Ada"), ("minutes", "25"), ("text", "probe out for cleaning"));

        Assert.Equal((HttpStatusCode.SeeOther, "/vats/madder-lane/alarms/overheat"), (reply.StatusCode, reply.Headers.Location!.OriginalString));
        Assert.Equal(
            new AlarmAct(AlarmActKind.Shelve, new("madder-lane"), new("overheat"), "Ada", "page") { For = TimeSpan.FromMinutes(25), Text = "probe out for cleaning" },
            Assert.Single(pages.Desk.Taken));
    }

    [Theory]
    [InlineData("note", "the lid was shut", AlarmActKind.Note)]
    [InlineData("out-of-service", "sent for repair", AlarmActKind.TakeOutOfService)]
    public async Task The_page_of_an_alarm_takes_notes_and_takes_it_out_of_service(string word, string text, AlarmActKind kind)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();

        using var reply = await Forms.SubmitAsync(browser, "/vats/madder-lane/alarms/overheat", $"overheat/{word}", ("by", "Ada"), ("text", text));

        Assert.Equal((kind, text), (Assert.Single(pages.Desk.Taken).Kind, pages.Desk.Taken[0].Text));
    }

    [Theory]
    [InlineData("minutes", "soon")]
    [InlineData("text", " ")]
    public async Task A_form_that_is_not_whole_is_refused_with_what_was_wanted(string field, string value)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Overheat());
        using var browser = pages.Browser();
        (string, string)[] fields = [("by", "Ada"), ("minutes", "25"), ("text", "probe out"), (field, value)];

        using var reply = await Forms.SubmitAsync(browser, "/vats/madder-lane/alarms/overheat", "overheat/shelve", fields);

        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Contains("wanted 1 to", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Empty(pages.Desk.Taken);
    }
}
