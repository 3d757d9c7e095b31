using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using VatWatch.Testing;

namespace VatWatch.BrowserTests;

/// <summary>
/// Debian's Chromium, started once for all tests, which run one after the other on it; nothing is ever downloaded.
/// </summary>
[CollectionDefinition(Name)]
public sealed class Chromium : IAsyncLifetime, ICollectionFixture<Chromium>
{
    /// <summary>Name of the collection of tests that share it.</summary>
    public const string Name = "in a browser";

    /// <summary>Sizes that every task is done at: a phone in one hand and a laptop.</summary>
    public static readonly (int Width, int Height) Phone = (360, 740);

    /// <inheritdoc cref="Phone"/>
    public static readonly (int Width, int Height) Laptop = (1280, 800);

    private const string Program = "/usr/bin/chromium";

    private static readonly string Screens = SourceTree.At("tests", "VatWatch.BrowserTests", "TestResults", "screens");

    private static readonly string[] Quiet =
    [
        "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-proxy-server",
    ];

    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private readonly List<(string Url, IBrowserContext Device)> _people = [];

    public async ValueTask InitializeAsync()
    {
        // A bound against hanging, not a figure: the machine may be busy.
        Assertions.SetDefaultExpectTimeout(20_000);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new() { ExecutablePath = Program, Args = Quiet, Headless = true });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.CloseAsync();
        }

        _playwright?.Dispose();
    }

    /// <summary>A person with a device of their own: no cookies of anybody else.</summary>
    internal async Task<IPage> PersonAsync(string url, (int Width, int Height)? size = null, bool script = true, bool dark = false)
    {
        // Tests follow one another: a page of another daemon is left from one that has ended, and would go on asking for it.
        foreach (var (_, left) in _people.Where(person => person.Url != url))
        {
            await left.CloseAsync();
        }

        _people.RemoveAll(person => person.Url != url);
        var (width, height) = size ?? Phone;
        var context = await _browser!.NewContextAsync(new()
        {
            BaseURL = url,
            ViewportSize = new() { Width = width, Height = height },
            JavaScriptEnabled = script,
            HasTouch = width < 500,
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
        });
        _people.Add((url, context));
        context.SetDefaultTimeout(15_000);
        return await context.NewPageAsync();
    }

    /// <summary>Notes every script error, and everything that the policy stopped, on a page.</summary>
    internal static List<string> FaultsOf(IPage page)
    {
        var faults = new List<string>();
        page.PageError += (_, error) => faults.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("Failed to load resource", StringComparison.Ordinal))
            {
                faults.Add(message.Text);
            }
        };
        return faults;
    }

    /// <summary>Keeps a picture of the whole page for people to look at.</summary>
    internal static async Task KeepAsync(IPage page, string name)
    {
        var size = page.ViewportSize!;
        await page.ScreenshotAsync(new() { Path = Path.Combine(Screens, $"{name}-{size.Width}.png"), FullPage = true });
    }

    /// <summary>Fails when the accessibility rules of axe find something serious or critical.</summary>
    internal static async Task AssertAccessibleAsync(IPage page)
    {
        var result = await page.RunAxe();
        Assert.NotEmpty(result.Passes);
        var serious = result.Violations.Where(one => one.Impact is "serious" or "critical")
            .Select(one => $"{one.Id}: {one.Help}: {string.Join(" | ", one.Nodes.Select(node => node.Html))}").ToList();
        Assert.True(serious.Count == 0, $"{page.Url}\n{string.Join('\n', serious)}");
    }
}
