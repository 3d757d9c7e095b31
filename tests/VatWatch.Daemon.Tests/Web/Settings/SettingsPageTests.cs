namespace VatWatch.Daemon.Tests.Web.Settings;

public sealed class SettingsPageTests
{
    [Fact]
    public async Task The_page_is_reached_and_shows_no_form()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        var html = await browser.GetStringAsync("/settings", TestContext.Current.CancellationToken);

        Assert.Contains("<h1>Settings</h1>", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<form", html, StringComparison.Ordinal);
    }
}
