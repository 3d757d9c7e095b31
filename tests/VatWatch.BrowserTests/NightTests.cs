using Microsoft.Playwright;

namespace VatWatch.BrowserTests;

/// <summary>A night by clicks on the real daemon: see the state, hear of an alarm, acknowledge it, look at the chart.</summary>
[Collection(Chromium.Name)]
public sealed class NightTests(Chromium chromium)
{
    [Theory]
    [InlineData(360, 740, false)]
    [InlineData(1280, 800, true)]
    public async Task The_dyer_sees_the_state_is_told_of_an_alarm_acknowledges_it_and_looks_at_the_chart(int width, int height, bool dark)
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url, (width, height), dark: dark);
        var faults = Chromium.FaultsOf(page);

        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator(".state")).ToHaveTextAsync("ready");
        await Assertions.Expect(page.Locator(".figure").First).ToContainTextAsync("113.4");
        await Assertions.Expect(page.GetByText("No alarms.")).ToBeVisibleAsync();
        await Chromium.KeepAsync(page, "vats-ready");
        await Chromium.AssertAccessibleAsync(page);

        // Past the limit of 120 °F = 48.9 °C; the page shows it without being touched.
        await studio.Instrument.TellAsync("set T 49.6");
        await Assertions.Expect(page.Locator(".alarm.critical")).ToContainTextAsync("too hot");
        await Assertions.Expect(page).ToHaveTitleAsync(new System.Text.RegularExpressions.Regex("alarm"));
        await Chromium.KeepAsync(page, "vats-overheat");
        await Chromium.AssertAccessibleAsync(page);

        await FirstScreenTellsAsync(page);
        var card = page.Locator(".alarm.critical");
        await card.GetByLabel("Your name").FillAsync("Ada");
        await card.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.Locator(".alarm.critical")).ToContainTextAsync("acknowledged by Ada");

        await page.Locator(".strip h2").GetByRole(AriaRole.Link).ClickAsync();
        await DrawnAsync(page);
        foreach (var stretch in new[] { "1 h", "24 h", "Session" })
        {
            await page.Locator(".hours").GetByRole(AriaRole.Link, new() { Name = stretch, Exact = true }).ClickAsync();
            await Assertions.Expect(page.Locator(".hours a[aria-current]")).ToHaveTextAsync(stretch);
        }

        await page.Locator(".hours").GetByRole(AriaRole.Link, new() { Name = "1 h", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Closer" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Later" }).ClickAsync();
        await DrawnAsync(page);
        await page.Locator("#chart-happened summary").ClickAsync();
        await Assertions.Expect(page.Locator(".happened")).ToContainTextAsync("overheat");
        await Chromium.KeepAsync(page, "vat");
        await Chromium.AssertAccessibleAsync(page);

        await page.GetByRole(AriaRole.Link, new() { Name = "Alarms", Exact = true }).ClickAsync();
        await Chromium.KeepAsync(page, "alarms");
        await Chromium.AssertAccessibleAsync(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "Settings", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Settings");
        await Chromium.KeepAsync(page, "settings");
        await Chromium.AssertAccessibleAsync(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Send a test message" }).ClickAsync();
        await Assertions.Expect(page.Locator(".contacts [role=status]")).ToContainTextAsync("subscribed", new() { Timeout = 20_000 });
        Assert.Empty(faults);
    }

    [Fact]
    public async Task Everything_of_the_night_is_done_with_the_keyboard_alone()
    {
        await using var studio = await NightStudio.OpenAsync();
        await studio.Instrument.TellAsync("set T 49.6");
        var page = await chromium.PersonAsync(studio.Url, Chromium.Laptop);
        await page.GotoAsync("/");
        await Assertions.Expect(page.Locator(".alarm.critical")).ToBeVisibleAsync();

        await TabToAsync(page, "input[name=by]");
        await page.Keyboard.TypeAsync("Ada");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".alarm.critical")).ToContainTextAsync("acknowledged by Ada");

        await TabToAsync(page, ".strip h2 a");
        await page.Keyboard.PressAsync("Enter");
        await DrawnAsync(page);
        await TabToAsync(page, ".drawing");
        await page.Keyboard.PressAsync("ArrowLeft");
        await Assertions.Expect(page.Locator(".reading")).ToContainTextAsync("Liquor");
        await page.Keyboard.PressAsync("+");
        await Assertions.Expect(page.Locator(".hours a[aria-current]")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_tap_on_the_chart_reads_it_out_and_a_drag_asks_for_finer_columns()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        await page.GotoAsync("/vats/weld-yard?hours=1");
        await DrawnAsync(page);
        await page.Locator(".drawing").EvaluateAsync("drawing => drawing.scrollIntoView({ block: 'start' })");
        var box = (await page.Locator(".drawing").BoundingBoxAsync())!;
        var (x, y) = (box.X + box.Width * 0.5f, box.Y + 150);

        var finer = page.WaitForRequestAsync(request => request.Url.Contains("/chart?from=", StringComparison.Ordinal));
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x - 40, y, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        await finer;

        await page.Mouse.ClickAsync(x, y);
        await Assertions.Expect(page.Locator(".reading")).ToContainTextAsync(":");
    }

    /// <summary>Without scrolling a phone of 640 px: the vat, its temperature and state, what to do, the alarm and its button.</summary>
    private static async Task FirstScreenTellsAsync(IPage page)
    {
        await Assertions.Expect(page.Locator(".strip .next")).ToContainTextAsync("Unplug the heater");
        foreach (var part in new[] { ".strip h2", ".strip-figure", ".strip .state", ".strip .next", ".alarm .text", "button.acknowledge" })
        {
            var box = (await page.Locator(part).BoundingBoxAsync())!;
            Assert.True(box.Y >= 0 && box.Y + box.Height <= 640, $"{part} ends {box.Y + box.Height} px down");
        }
    }

    private static async Task DrawnAsync(IPage page)
    {
        await Assertions.Expect(page.Locator(".drawing[data-drawn-in] canvas").First).ToBeVisibleAsync();
        var milliseconds = await page.Locator(".drawing").GetAttributeAsync("data-drawn-in");
        TestContext.Current.TestOutputHelper?.WriteLine($"drawn in {milliseconds} ms");
    }

    private static async Task TabToAsync(IPage page, string selector)
    {
        for (var i = 0; i < 60; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<bool>("selector => document.activeElement.matches(selector)", selector))
            {
                return;
            }
        }

        Assert.Fail($"60 times Tab did not reach {selector}");
    }
}
