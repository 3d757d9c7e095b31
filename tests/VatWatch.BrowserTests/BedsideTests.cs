using Microsoft.Playwright;

namespace VatWatch.BrowserTests;

/// <summary>The page beside the bed on the real daemon: what it shows, and that sound comes out of it when it must.</summary>
[Collection(Chromium.Name)]
public sealed class BedsideTests(Chromium chromium)
{
    private static readonly LocatorAssertionsToHaveAttributeOptions Patience = new() { Timeout = 40_000 };

    [Fact]
    public async Task It_sounds_for_an_alarm_until_it_is_acknowledged_and_for_lost_contact()
    {
        await using var studio = await NightStudio.OpenAsync();
        var page = await chromium.PersonAsync(studio.Url, (360, 640));
        var faults = Chromium.FaultsOf(page);
        var root = page.Locator("html");
        await page.GotoAsync("/bedside?sound=high");
        await Assertions.Expect(page.Locator(".figure")).ToContainTextAsync("113.4");
        await Assertions.Expect(page.Locator("#sound-state")).ToHaveTextAsync("The sound is off.");
        Assert.Equal(0, await LevelAsync(page));

        await page.GetByRole(AriaRole.Button, new() { Name = "Turn the sound on" }).ClickAsync();
        await Assertions.Expect(page.Locator("#sound-state")).ToContainTextAsync("The sound is on.");
        await HearsAsync(page);

        await studio.Instrument.TellAsync("set T 49.6");
        await Assertions.Expect(root).ToHaveAttributeAsync("data-sounding", "critical", Patience);
        await HearsAsync(page);
        await Chromium.KeepAsync(page, "bedside");
        await Chromium.AssertAccessibleAsync(page);
        await page.GetByLabel("Your name").FillAsync("Ada");
        await page.GetByRole(AriaRole.Button, new() { Name = "Acknowledge" }).ClickAsync();
        await Assertions.Expect(page.Locator("[data-alarm]")).ToContainTextAsync("acknowledged by Ada");
        await Assertions.Expect(root).ToHaveAttributeAsync("data-sounding", "", Patience);

        await studio.KillAsync();
        await page.EvaluateAsync("() => { const now = Date.now; Date.now = () => now() + 40000; }");
        await Assertions.Expect(root).ToHaveAttributeAsync("data-sounding", "lost", Patience);
        await HearsAsync(page);
        await Assertions.Expect(page.Locator("#contact")).ToContainTextAsync("No contact since");
        await Chromium.KeepAsync(page, "bedside-lost");
        await page.GetByRole(AriaRole.Button, new() { Name = "I know" }).ClickAsync();
        await Assertions.Expect(root).ToHaveAttributeAsync("data-sounding", "", Patience);
        Assert.Empty(faults);
    }

    private static Task<double> LevelAsync(IPage page) => page.EvaluateAsync<double>("() => document.getElementById('level').value");

    // What the analyser reads behind the oscillators, ahead of the loudspeaker.
    private static Task<IJSHandle> HearsAsync(IPage page) => page.WaitForFunctionAsync("() => document.getElementById('level').value > 0.03");
}
