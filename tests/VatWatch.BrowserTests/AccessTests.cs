using Microsoft.Playwright;

namespace VatWatch.BrowserTests;

/// <summary>Who may do what, by clicks.</summary>
[Collection(Chromium.Name)]
public sealed class AccessTests(Chromium chromium)
{
    [Fact]
    public async Task A_viewer_sees_the_alarm_and_cannot_acknowledge_it_but_an_operator_can()
    {
        await using var studio = await NightStudio.OpenAsync(passwords: true);
        await studio.Instrument.TellAsync("set T 49.6");

        var viewer = await chromium.PersonAsync(studio.Url);
        await SignInAsync(viewer, NightStudio.ViewerPassword);
        await Assertions.Expect(viewer.Locator(".alarm.critical")).ToContainTextAsync("too hot");
        await Assertions.Expect(viewer.GetByRole(AriaRole.Button, new() { Name = "Acknowledge" })).ToHaveCountAsync(0);
        var refused = await viewer.EvaluateAsync<int>(
            """() => fetch("/api/vats/weld-yard/alarms/overheat/acknowledge", { method: "POST", headers: { "Content-Type": "application/json" }, body: '{"by":"x"}' }).then(reply => reply.status)""");
        Assert.Equal(403, refused);
        await Chromium.KeepAsync(viewer, "viewer");

        var operators = await chromium.PersonAsync(studio.Url);
        await operators.GotoAsync("/");
        await Chromium.KeepAsync(operators, "login");
        await Chromium.AssertAccessibleAsync(operators);
        await SignInAsync(operators, NightStudio.OperatorPassword);
        await operators.Locator(".alarm.critical").GetByLabel("Your name").FillAsync("Ada");
        await operators.Locator(".alarm.critical").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(operators.Locator(".alarm.critical")).ToContainTextAsync("acknowledged by Ada");
        await Assertions.Expect(viewer.Locator(".alarm.critical")).ToContainTextAsync("acknowledged by Ada");

        await operators.GetByRole(AriaRole.Button, new() { Name = "Sign out" }).ClickAsync();
        await Assertions.Expect(operators.GetByLabel("Password of this site")).ToBeVisibleAsync();
    }

    private static async Task SignInAsync(IPage page, string password)
    {
        await page.GotoAsync("/");
        await page.GetByLabel("Password of this site").FillAsync(password);
        await page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(page.Locator(".vat")).ToBeVisibleAsync();
    }
}
