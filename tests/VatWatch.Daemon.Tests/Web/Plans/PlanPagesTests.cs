using System.Net;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.Plans;

/// <summary>A cold vat of 40 gal and 1500 W at 03:20, whose page is used without script.</summary>
public sealed class PlanPagesTests
{
    private static readonly VatId Madder = new("madder-lane");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_wish_is_worked_out_kept_ticked_and_entered_by_forms_alone()
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        const string Asked = "/plan?vat=madder-lane&ready=09:20&at=110";

        var plan = VatsPageTests.Text(await browser.GetStringAsync(Asked, Cancel));
        Assert.Contains("Switch on at 0", plan, StringComparison.Ordinal);
        Assert.Contains("kWh", plan, StringComparison.Ordinal);
        Assert.Contains("no safety device and switches nothing", plan, StringComparison.Ordinal);

        using var keep = await Forms.SubmitAsync(browser, Asked, "/plan/warm", ("by", "Ada"), ("day", "Wednesday"));
        Assert.Equal((HttpStatusCode.SeeOther, "/plan?vat=madder-lane"), (keep.StatusCode, keep.Headers.Location!.OriginalString));
        var kept = VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel));
        Assert.Contains("Kept: 110.0 °F by 09:20, every Wed", kept, StringComparison.Ordinal);
        Assert.Contains("Next: warm by 09:20. Switch on at 0", kept, StringComparison.Ordinal);
        Assert.Contains("The ground-fault protection of its outlet was tried this month.", kept, StringComparison.Ordinal);

        using var on = await Forms.SubmitAsync(browser, "/plan", "/plan/heater-on", ("by", "Ada"), ("check", "level"));
        Assert.Equal(HttpStatusCode.SeeOther, on.StatusCode);
        using var reader = pages.LogBook.Store.OpenReader();
        var entry = EntryTable.Newest(reader, Madder, Scenes.Start.AddHours(-1), EntryKind.HeaterOn)!;
        Assert.Equal(Scenes.Start.AddHours(6), entry.ReadyBy);
        Assert.Equal("list of the night: looked at level; not at instructions, cutout, ground-fault, circuit, clear", entry.Text);
        Assert.Contains("The heater is on since 03:20 (Ada)", VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_heater_that_a_program_enters_without_a_time_is_on_for_the_kept_wish()
    {
        var scenes = HeatingApiTests.WithHeat(heaterOn: false);
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        await pages.LogBook.Plans.KeepAsync(Madder, new KeptWarmPlan(new(6, 10), 43, [DayOfWeek.Wednesday], null, "Ada"), Cancel);
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.HeaterOn, "timer"), Cancel);
        var page = VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel));
        Assert.Contains("The heater is on since 03:20 (timer).", page, StringComparison.Ordinal);
        Assert.DoesNotContain("I have switched the heater on", page, StringComparison.Ordinal);

        // One that is switched off again is not awaited again, which the reminder holds too.
        scenes.Time.Advance(TimeSpan.FromMinutes(5));
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.HeaterOff, "timer"), Cancel);
        page = VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel));
        Assert.Contains("nobody is reminded again for this time", page, StringComparison.Ordinal);
        Assert.DoesNotContain("I have switched the heater on", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_heater_that_is_on_is_told_when_to_be_switched_off_so_that_the_liquor_coasts()
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: true));
        using var browser = pages.Browser();
        var plan = VatsPageTests.Text(await browser.GetStringAsync("/plan?vat=madder-lane&ready=09:20&at=104", Cancel));
        Assert.Contains("The heater is on. For the liquor to coast to 104.0 °F at 09:20, switch it off in ", plan, StringComparison.Ordinal);
        Assert.Contains("Switched off now, on again at", plan, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_kept_plan_is_put_off_and_dropped()
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        await pages.LogBook.Plans.KeepAsync(Madder, new KeptWarmPlan(new(9, 20), 43, [DayOfWeek.Wednesday, DayOfWeek.Friday], null, "Ada"), Cancel);

        using var off = await Forms.SubmitAsync(browser, "/plan", "/plan/put-off", ("by", "Ada"));
        Assert.Equal(HttpStatusCode.SeeOther, off.StatusCode);
        Assert.Contains("Next: warm by Fri 6 Mar 09:20", VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel)), StringComparison.Ordinal);
        using var drop = await Forms.SubmitAsync(browser, "/plan", "/plan/drop", ("by", "Ada"));
        Assert.Equal(HttpStatusCode.SeeOther, drop.StatusCode);
        Assert.DoesNotContain("Kept:", VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ready=04:00&at=110", "cannot be at 110.0 °F by 04:00")]
    [InlineData("ready=09:00&at=125", "is not below the limit")]
    [InlineData("ready=soon&at=110", "Ready at is 'soon'; wanted a time of day")]
    [InlineData("ready=09:00&at=warm", "Liquor at is 'warm'; wanted a number of °F")]
    [InlineData("what=day&goods=wool", "A line of goods is 'wool'; wanted goods such as")]
    [InlineData("what=day&goods=1+kg+wool+x+2+dips&start=noon", "First dip at is 'noon'")]
    public async Task What_cannot_be_is_said(string query, string words)
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        Assert.Contains(words, VatsPageTests.Text(await browser.GetStringAsync($"/plan?{query}", Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_day_is_worked_out_kept_moved_along_by_the_log_book_and_given_as_a_calendar()
    {
        var scenes = HeatingApiTests.WithHeat(heaterOn: false);
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        const string Asked = "/plan?vat=madder-lane&what=day&goods=2+lb+wool+x+3+dips%0A500+g+cotton+x+4+dips";

        var asked = VatsPageTests.Text(await browser.GetStringAsync(Asked, Cancel));
        Assert.Contains("Load 1: 1.10 lb cotton, 4 dips", asked, StringComparison.Ordinal);
        Assert.Contains("The liquor is at 68.0 °F now: it is to be at ", asked, StringComparison.Ordinal);
        Assert.Contains("1: cotton, 1 of 4", asked, StringComparison.Ordinal);
        using var keep = await Forms.SubmitAsync(browser, Asked, "/plan/day", ("by", "Ada"));
        Assert.Equal(HttpStatusCode.SeeOther, keep.StatusCode);
        Assert.Contains("On time. 0 of 7 dips are entered", await DayAsync(), StringComparison.Ordinal);

        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.DipIn, "Ada"), Cancel);
        scenes.Time.Advance(TimeSpan.FromMinutes(25));
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.DipOut, "Ada"), Cancel);
        var moved = await DayAsync();
        Assert.Contains("15 min later than planned. 1 of 7 dips are entered", moved, StringComparison.Ordinal);
        Assert.Contains("Load 1: 1.10 lb cotton, 4 dips", moved, StringComparison.Ordinal);

        using var calendar = await browser.GetAsync("/plan.ics", Cancel);
        Assert.Equal("text/calendar", calendar.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", await calendar.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);

        async Task<string> DayAsync() => VatsPageTests.Text(await browser.GetStringAsync("/plan?what=day", Cancel));
    }

    [Fact]
    public async Task The_power_of_a_heater_that_nobody_knows_is_asked_for_and_kept_with_the_plan()
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false, plateWatts: null));
        using var browser = pages.Browser();
        Assert.Contains("Power of the heater", await browser.GetStringAsync("/plan", Cancel), StringComparison.Ordinal);
        Assert.Contains("Power of the heater", await browser.GetStringAsync("/plan?what=day", Cancel), StringComparison.Ordinal);
        Assert.Contains("Power of the heater is 'strong'", VatsPageTests.Text(await browser.GetStringAsync("/plan?ready=09:00&at=110&heater=strong", Cancel)), StringComparison.Ordinal);
        const string Asked = "/plan?ready=09:00&at=110&heater=1500";
        Assert.Contains("gives the liquor 1500 W", VatsPageTests.Text(await browser.GetStringAsync(Asked, Cancel)), StringComparison.Ordinal);
        using var strong = await Forms.SubmitAsync(browser, Asked, "/plan/warm", ("by", "Ada"), ("heater", "strong"));
        Assert.Equal(HttpStatusCode.Conflict, strong.StatusCode);
        using var keep = await Forms.SubmitAsync(browser, Asked, "/plan/warm", ("by", "Ada"));
        Assert.Equal(HttpStatusCode.SeeOther, keep.StatusCode);
        Assert.Contains("Next: warm by", VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel)), StringComparison.Ordinal);
        Assert.DoesNotContain("is not known", VatsPageTests.Text(await browser.GetStringAsync("/plan", Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task After_the_session_its_page_says_what_was_foretold_and_what_came()
    {
        var scenes = HeatingApiTests.WithHeat(heaterOn: false);
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        const string Asked = "/plan?vat=madder-lane&what=day&goods=500+g+wool+x+2+dips";
        using var keep = await Forms.SubmitAsync(browser, Asked, "/plan/day", ("by", "Ada"));
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.DipIn, "Ada"), Cancel);
        scenes.Time.Advance(TimeSpan.FromMinutes(12));
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.DipOut, "Ada"), Cancel);
        var added = await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 28.35 }, Cancel);

        var page = VatsPageTests.Text(await browser.GetStringAsync($"/vats/madder-lane/sessions/{added.Session!.Id}", Cancel));
        Assert.Matches(@"Planned\s+Foretold\s+Came", page);
        Assert.Matches(@"Dips\s+2\s+1", page);
        Assert.Matches(@"Soda ash\s+0.00 oz\s+1.00 oz", page);
    }

    [Theory]
    [InlineData("/plan?vat=elsewhere")]
    [InlineData("/plan.ics?vat=elsewhere")]
    [InlineData("/plan.ics")]
    public async Task What_is_not_there_is_not_found(string address)
    {
        await using var pages = await RunningPages.StartAsync(HeatingApiTests.WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        using var answer = await browser.GetAsync(address, Cancel);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }
}
