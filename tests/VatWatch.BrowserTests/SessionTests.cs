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
        await book.Locator("#log-amount").FillAsync("50 g");
        await book.Locator("#log-added").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-entries]")).ToContainTextAsync("of soda ash");
        await Chromium.KeepAsync(page, "log-book");
        await Chromium.AssertAccessibleAsync(page);

        await book.GetByRole(AriaRole.Button, new() { Name = "Undo" }).First.ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-entries]")).Not.ToContainTextAsync("of soda ash");

        if (width < 500)
        {
            await DipWithAWishAndWithoutContactAsync(page);
        }

        await book.Locator("#log-end summary").ClickAsync();
        await Button(book, "End session").ClickAsync();
        await Assertions.Expect(book.Locator("[data-part=log-count]")).ToContainTextAsync("No session is open");

        await page.GetByRole(AriaRole.Link, new() { Name = "Sessions", Exact = true }).ClickAsync();
        await Chromium.KeepAsync(page, "sessions");
        await Chromium.AssertAccessibleAsync(page);
        await page.Locator("main a[href*='/sessions/20']").First.ClickAsync();
        await page.GetByText("Everything written").ClickAsync();
        await Assertions.Expect(page.Locator("[data-part=dips]")).ToContainTextAsync("yarn out");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { Name = "The session", Exact = true })).ToHaveAttributeAsync("aria-current", "true");
        await ShownAsync(page, "session");
        Assert.Equal(dark, (await page.Locator(".chart img").EvaluateAsync<string>("picture => picture.currentSrc")).Contains("look=dark", StringComparison.Ordinal));
        Assert.Equal(0, await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth"));
        Assert.Empty(faults);
    }

    [Theory]
    [InlineData(360, 740, true)]
    [InlineData(1280, 800, false)]
    public async Task Two_sessions_are_ticked_and_laid_over_each_other_and_the_vat_has_a_life(int width, int height, bool dark)
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url, (width, height), dark: dark);
        var faults = Chromium.FaultsOf(page);
        for (var session = 0; session < 2; session++)
        {
            await page.GotoAsync("/vats/weld-yard");
            var book = page.Locator("#log-book");
            if (session == 0)
            {
                await book.GetByLabel("Your name, so that").FillAsync("Ada");
            }

            await Button(book, "Dip in").ClickAsync();
            await Button(book, "Dip out").ClickAsync();
            await book.Locator("#log-end summary").ClickAsync();
            await Button(book, "End session").ClickAsync();
            await Assertions.Expect(book.Locator("[data-part=log-count]")).ToContainTextAsync("No session is open");
        }

        await page.GotoAsync("/sessions?vat=weld-yard");
        foreach (var box in await page.GetByRole(AriaRole.Checkbox).AllAsync())
        {
            await box.CheckAsync();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Lay over each other" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("2 sessions over each other");
        await ShownAsync(page, "compared");
        var difference = await page.Locator(".compare td:not(:empty)").Last.BoundingBoxAsync();
        Assert.InRange(difference!.X + difference.Width, 1, width);

        await page.GotoAsync("/sessions?vat=weld-yard");
        await page.GetByRole(AriaRole.Link, new() { Name = "The life of" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("The life of");
        await ShownAsync(page, "life");

        await page.GotoAsync("/sessions?vat=weld-yard");
        await page.Locator("main a[href*='/sessions/20']").First.ClickAsync();
        await page.GetByText("Join it to another").ClickAsync();
        await page.GetByLabel("before:").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Join them" }).ClickAsync();
        await Assertions.Expect(page.Locator(".sessions li")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".sessions li")).ToContainTextAsync("2 dips");

        await page.Locator("main a[href*='/sessions/20']").First.ClickAsync();
        await page.GetByText("Take it apart").First.ClickAsync();
        await page.GetByLabel("dip 2").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it apart" }).ClickAsync();
        await Assertions.Expect(page.Locator(".sessions li")).ToHaveCountAsync(2);
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

    /// <summary>The bar at the foot of a phone: it counts to the wish, says so by colour and sound, and keeps a tap while the watch is away.</summary>
    private static async Task DipWithAWishAndWithoutContactAsync(IPage page)
    {
        var (bar, kept) = (page.Locator(".bar"), page.Locator("#kept"));
        await page.Locator("#log-yarn summary").ClickAsync();
        await page.GetByLabel("min in").FillAsync("0.03");
        await page.GetByLabel("dips", new() { Exact = true }).FillAsync("4");
        await page.Locator("#log-yarn").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(bar).ToContainTextAsync("dip 2 of 4");

        await Button(bar, "Dip in").ClickAsync();
        await Assertions.Expect(bar.Locator(".written")).ToContainTextAsync("yarn in");
        await Assertions.Expect(bar.Locator(".bar-line.due")).ToContainTextAsync("Time to take it out");
        await page.WaitForFunctionAsync("() => Number(document.documentElement.dataset.rang) > 0");
        await Assertions.Expect(bar).ToBeInViewportAsync();
        await Chromium.KeepAsync(page, "dyeing");
        await Chromium.AssertAccessibleAsync(page);

        await page.Context.SetOfflineAsync(true);
        await Button(bar, "Dip out").ClickAsync();
        await Assertions.Expect(kept).ToContainTextAsync("Kept on this phone until VatWatch is back: Dip out");
        await Assertions.Expect(bar.Locator("#bar-tap")).ToHaveTextAsync("Dip in");
        await page.Context.SetOfflineAsync(false);
        await Assertions.Expect(kept).ToBeHiddenAsync();
        await Assertions.Expect(bar.Locator(".written")).ToContainTextAsync("yarn out");
        await Assertions.Expect(page.Locator("[data-part=log-count]")).ToContainTextAsync("2 dips");
        await TapLivesOnWhenThePageIsLeftAsync(page);
    }

    /// <summary>A tap without contact on a page that is then left: the next page of the site, whichever it is, sends it once and with its own time.</summary>
    private static async Task TapLivesOnWhenThePageIsLeftAsync(IPage page)
    {
        await page.Context.SetOfflineAsync(true);
        await Button(page.Locator("#log-book"), "Stirred").ClickAsync();
        await Assertions.Expect(page.Locator("#kept")).ToContainTextAsync("until VatWatch is back: Stirred");
        var at = await page.EvaluateAsync<string>("""
            () => {
              const taps = JSON.parse(localStorage.getItem("vatwatch-kept"));
              taps[0].at -= 180000;
              localStorage.setItem("vatwatch-kept", JSON.stringify(taps));
              return new Date(taps[0].at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: document.querySelector("main").dataset.zone });
            }
            """);
        await page.GotoAsync("about:blank");
        await page.Context.SetOfflineAsync(false);

        await page.GotoAsync("/settings");
        await page.WaitForFunctionAsync("() => JSON.parse(localStorage.getItem('vatwatch-kept')).length === 0");
        await page.GotoAsync("/vats/weld-yard");
        var stirred = page.Locator("[data-part=log-entries] li").Filter(new() { HasText = "stirred" });
        await Assertions.Expect(stirred).ToHaveCountAsync(1);
        await Assertions.Expect(stirred).ToContainTextAsync(at);
    }

    private static async Task ShownAsync(IPage page, string name)
    {
        await Assertions.Expect(page.Locator(".chart img")).ToHaveJSPropertyAsync("complete", true);
        Assert.True(await page.Locator(".chart img").EvaluateAsync<int>("picture => picture.naturalWidth") > 100, "the picture was not drawn");
        await Chromium.KeepAsync(page, name);
        await Chromium.AssertAccessibleAsync(page);
    }

    private static ILocator Button(ILocator within, string name) => within.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });
}
