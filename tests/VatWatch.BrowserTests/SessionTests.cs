using Microsoft.Playwright;

namespace VatWatch.BrowserTests;

/// <summary>A session by clicks on the real daemon: dips, an addition, a slip taken back, the end, and the pages that show it.</summary>
[Collection(Chromium.Name)]
public sealed class SessionTests(Chromium chromium)
{
    [Theory]
    [InlineData(360, 740, true)]
    [InlineData(1280, 800, false)]
    public async Task A_session_is_written_down_by_taps_and_found_again(int width, int height, bool dark)
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url, (width, height), dark: dark);
        var faults = Chromium.FaultsOf(page);
        var book = page.Locator("#log-book");

        await page.GotoAsync("/vats/weld-yard");
        await book.GetByLabel("Your name, so that").FillAsync("Ada");
        await Button(book, "Dip in").ClickAsync();
        await Button(book, "Dip out").ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-count]")).ToContainTextAsync("1 dip");

        await book.Locator("#log-added summary").ClickAsync();
        await book.GetByLabel("soda ash").CheckAsync();
        await book.GetByLabel("How much").FillAsync("50 g");
        await book.Locator("#log-added").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-entries]")).ToContainTextAsync("of soda ash");
        await Chromium.KeepAsync(page, "log-book");
        await Chromium.AssertAccessibleAsync(page);

        await book.GetByRole(AriaRole.Button, new() { Name = "Undo" }).First.ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-entries]")).Not.ToContainTextAsync("of soda ash");

        await book.Locator("#log-end summary").ClickAsync();
        await Button(book, "End session").ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-count]")).ToContainTextAsync("No session is open");

        await page.GetByRole(AriaRole.Link, new() { Name = "Sessions", Exact = true }).ClickAsync();
        await Chromium.KeepAsync(page, "sessions");
        await Chromium.AssertAccessibleAsync(page);
        await page.Locator("main a[href*='/sessions/20']").First.ClickAsync();
        await Assertions.Expect(page.Locator("[data-part=dips]")).ToContainTextAsync("yarn out");
        await Chromium.KeepAsync(page, "session");
        await Chromium.AssertAccessibleAsync(page);
        Assert.Empty(faults);
    }

    [Fact]
    public async Task Dosing_and_calibration_can_be_read_by_everybody()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url);
        var faults = Chromium.FaultsOf(page);
        foreach (var name in new[] { "Dosing", "Calibration" })
        {
            await page.GotoAsync("/");
            await page.GetByRole(AriaRole.Link, new() { Name = name, Exact = true }).ClickAsync();
            await Assertions.Expect(page.Locator("h1")).ToContainTextAsync(name);
            await Chromium.KeepAsync(page, name.ToLowerInvariant());
            await Chromium.AssertAccessibleAsync(page);
        }

        await page.GotoAsync("/dosing");
        await page.GetByLabel("pH now").FillAsync("9.2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("soda ash");
        await Chromium.KeepAsync(page, "dose");
        await Chromium.AssertAccessibleAsync(page);
        Assert.Empty(faults);
    }

    private static ILocator Button(ILocator within, string name) => within.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });
}
