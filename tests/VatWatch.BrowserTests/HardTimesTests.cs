using Microsoft.Playwright;

namespace VatWatch.BrowserTests;

/// <summary>What a page does when things are against it: no script, no network, a restarted daemon, a name that is markup.</summary>
[Collection(Chromium.Name)]
public sealed class HardTimesTests(Chromium chromium)
{
    /// <summary>First page at most, all files of it together.</summary>
    private const long MostBytes = 150 * 1024;

    [Fact]
    public async Task With_script_off_the_state_shows_an_alarm_is_acknowledged_and_the_chart_is_a_picture()
    {
        await using var studio = await NightStudio.OpenAsync();
        await studio.Instrument.TellAsync("set T 49.6");
        var page = await chromium.PersonAsync(studio.Url, script: false);
        await page.GotoAsync("/");

        // Without script a page stays as it was when it was loaded.
        while (await page.Locator(".alarm.critical").CountAsync() == 0 || (await page.Locator(".state").TextContentAsync())?.Trim() != "too hot")
        {
            await page.ReloadAsync();
        }

        await Assertions.Expect(page.Locator(".state")).ToHaveTextAsync("too hot");
        await page.Locator(".alarm.critical").GetByLabel("Your name").FillAsync("Ada");
        await page.Locator(".alarm.critical").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.Locator(".alarm.critical")).ToContainTextAsync("acknowledged by Ada");

        await page.GotoAsync("/vats/weld-yard?hours=1");
        await Assertions.Expect(page.Locator(".chart img")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".summary")).ToContainTextAsync("Liquor");
        await Chromium.KeepAsync(page, "vat-script-off");
    }

    [Fact]
    public async Task A_name_that_is_markup_is_shown_as_text()
    {
        const string name = "<img src=x onerror=\"document.title='taken'\"><b>tub</b> & \"vat\"";
        await using var studio = await NightStudio.OpenAsync(name);
        var page = await chromium.PersonAsync(studio.Url);
        var faults = Chromium.FaultsOf(page);

        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator(".strip h2 a")).ToHaveTextAsync(name);
        await page.GotoAsync("/vats/weld-yard");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync(name);
        await Assertions.Expect(page.Locator(".drawing canvas").First).ToBeVisibleAsync();
        Assert.Equal(0, await page.Locator("img[src=x], h1 b").CountAsync());
        Assert.Empty(faults);
    }

    [Fact]
    public async Task A_page_without_contact_says_that_it_is_old_and_is_right_again_soon_after()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("113.4");

        await page.Context.SetOfflineAsync(true);
        await studio.Instrument.TellAsync("set T 44");
        await Assertions.Expect(page.Locator("#contact")).ToContainTextAsync("Old: no contact with VatWatch since");
        await Chromium.KeepAsync(page, "no-contact");
        await page.Context.SetOfflineAsync(false);

        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("111.2");
        await Assertions.Expect(page.Locator("#contact")).ToBeHiddenAsync();
    }

    [Fact]
    public async Task A_page_that_slept_is_right_again_when_it_wakes()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("113.4");
        var tools = await page.Context.NewCDPSessionAsync(page);

        // Stops the page's script where it is, as a sleeping phone does; its clock jumps when it goes on.
        await tools.SendAsync("Debugger.enable");
        await tools.SendAsync("Debugger.pause");
        await studio.Instrument.TellAsync("set T 43");
        await Task.Delay(TimeSpan.FromSeconds(4), TestContext.Current.CancellationToken);
        await tools.SendAsync("Debugger.resume");

        var woken = System.Diagnostics.Stopwatch.StartNew();
        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("109.4");
        TestContext.Current.TestOutputHelper?.WriteLine($"right {woken.ElapsedMilliseconds} ms after waking");
    }

    [Fact]
    public async Task A_page_finds_its_daemon_again_after_a_power_cut()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        await page.GotoAsync("/");
        await studio.KillAsync();
        await Assertions.Expect(page.Locator("#contact")).ToContainTextAsync("Old: no contact");

        await studio.Instrument.TellAsync("set T 42");
        await studio.StartAsync();

        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("107.6");
        await Assertions.Expect(page.Locator("#contact")).ToBeHiddenAsync();
        await studio.Instrument.TellAsync("set T 41");
        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("105.8");
    }

    [Fact]
    public async Task The_first_page_is_light_and_its_values_are_in_the_first_answer()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        var answers = new System.Collections.Concurrent.ConcurrentQueue<IResponse>();
        page.Response += (_, answer) => answers.Enqueue(answer);

        var first = await page.GotoAsync("/", new() { WaitUntil = WaitUntilState.Load });

        Assert.Contains("113.4", await first!.TextAsync(), StringComparison.Ordinal);
        long total = 0;
        foreach (var answer in answers.Where(one => !one.Url.Contains("/api/", StringComparison.Ordinal)))
        {
            var sizes = await answer.Request.SizesAsync();
            total += sizes.ResponseBodySize + sizes.ResponseHeadersSize;
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"first page: {total} bytes in {answers.Count} answers");
        Assert.InRange(total, 1000, MostBytes);
    }
}
