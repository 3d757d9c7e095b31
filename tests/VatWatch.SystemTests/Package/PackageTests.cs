using System.Globalization;
using System.Text.RegularExpressions;
using VatWatch.Packing;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Package;

/// <summary>The Debian package: built by its script, installed, run, upgraded, removed and purged by a real dpkg.</summary>
public sealed partial class PackageTests : IAsyncDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(60);
    private readonly InstalledPackage _installed = new();
    private readonly string _built = Directory.CreateTempSubdirectory("package-").FullName;

    public async ValueTask DisposeAsync()
    {
        await _installed.DisposeAsync();
        Directory.Delete(_built, recursive: true);
    }

    private string Published => VatWatchProcess.Published ?? Path.Combine(_built, "published");

    [Fact]
    public async Task Installed_it_watches_an_upgrade_keeps_data_and_configuration_and_only_a_purge_removes_what_was_recorded()
    {
        if (VatWatchProcess.Published is null)
        {
            await ScriptAsync("publish", "linux-x64", Published);
        }

        await InstallAsync("1.0.0");
        await RequireNoticesAsync(_installed.At("usr/lib/vatwatch"));
        Assert.InRange(long.Parse((await ToolRun.RequireAsync("du", ["-sb", _installed.At("usr/lib/vatwatch")])).Output.Split('\t')[0], CultureInfo.InvariantCulture), 50_000_000, 150_000_000);
        var (config, data) = (_installed.At("etc/vatwatch/vatwatch.json"), _installed.At("var/lib/vatwatch"));
        Assert.Contains("\nvatwatch:", await File.ReadAllTextAsync(_installed.At("etc/passwd"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("dialout:x:20:vatwatch", await File.ReadAllTextAsync(_installed.At("etc/group"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal("750", (await ToolRun.RequireAsync("stat", ["-c", "%a", data])).Output.Trim());
        await RequireLinksAsync(_installed.At("usr/share/doc/vatwatch"), "README.md");
        Assert.True(File.Exists(_installed.At("usr/lib/udev/rules.d/70-vatwatch.rules")) && File.Exists(_installed.At("usr/lib/systemd/system/vatwatch.service")));

        await ChangeConfigurationAsync(config);
        await WatchAsync(config, data);
        await DrawAndExportAsync(config, data);
        await InstallAsync("1.0.1");
        Assert.Contains("upgraded-shed", await File.ReadAllTextAsync(config, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await WatchAsync(config, data);

        await _installed.DpkgAsync("--remove", "vatwatch");
        Assert.False(File.Exists(_installed.At("usr/lib/vatwatch/vatwatch")));
        Assert.NotEmpty(Directory.GetFiles(data));
        Assert.True(File.Exists(config));
        await _installed.DpkgAsync("--purge", "vatwatch");
        Assert.False(Directory.Exists(data) || File.Exists(config));
        Assert.DoesNotContain("vatwatch", await File.ReadAllTextAsync(_installed.At("etc/passwd"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static async Task ScriptAsync(string script, params string[] arguments) =>
        await InstalledPackage.RunAsync("env", [$"PATH={Environment.GetEnvironmentVariable("PATH")}", $"HOME={Environment.GetEnvironmentVariable("HOME")}", "nice", "bash", SourceTree.At("config", "package", script), .. arguments]);

    private async Task InstallAsync(string version)
    {
        await ScriptAsync("build-deb", "amd64", "--published", Published, "--out", _built, "--version", version, "--compress", "none");
        await _installed.DpkgAsync("--install", Path.Combine(_built, $"vatwatch_{version}_amd64.deb"));
    }

    /// <summary>Each package of which something is installed has its makers and terms in the notices; the list is the one that the program starts by.</summary>
    private static async Task RequireNoticesAsync(string folder)
    {
        var packages = DependencyManifest.Read(Path.Combine(folder, "vatwatch.deps.json")).Packages;
        var notices = await File.ReadAllTextAsync(Path.Combine(folder, "NOTICES.txt"), TestContext.Current.CancellationToken);
        Assert.Contains(packages, package => package.Id == "Microsoft.NETCore.App.Runtime.linux-x64");
        Assert.All(packages, package => Assert.Contains($"\n{package.Id} {package.Version}\n    Licence: ", notices, StringComparison.Ordinal));
        Assert.All((string[])["echarts.txt", "DejaVu.txt", "Apache-2.0.txt"], name => Assert.True(File.Exists(Path.Combine(folder, "licences", name)), name));
    }

    /// <summary>What a start does not come to: the drawing library with its native part, and the column library.</summary>
    private async Task DrawAndExportAsync(string config, string data)
    {
        foreach (var name in (string[])["night.png", "night.pdf", "night.parquet"])
        {
            var file = Path.Combine(_built, name);
            await ToolRun.RequireAsync(_installed.At("usr/bin/vatwatch"), ["report", "--config", config, "--data", data, "--out", file]);
            Assert.True(new FileInfo(file).Length > 500, name);
        }
    }

    /// <summary>Whoever has only the package reads the page there: what it leads to must be there too.</summary>
    private static async Task RequireLinksAsync(string folder, string page)
    {
        var links = LinkPattern().Matches(await File.ReadAllTextAsync(Path.Combine(folder, page), TestContext.Current.CancellationToken)).Select(link => link.Groups["to"].Value).ToList();
        Assert.NotEmpty(links);
        Assert.All(links, link => Assert.True(Path.Exists(Path.Combine(folder, link)), link));
    }

    [GeneratedRegex(@"\]\((?!https?:|#)(?<to>[^)#]+)")]
    private static partial Regex LinkPattern();

    /// <summary>What a dyer changes: here the site, and ports that no other test has.</summary>
    private static async Task ChangeConfigurationAsync(string config)
    {
        var text = await File.ReadAllTextAsync(config, TestContext.Current.CancellationToken);
        Assert.Contains("\"data\": \"/var/lib/vatwatch/practice\"", text, StringComparison.Ordinal);
        await File.WriteAllTextAsync(
            config,
            text.Replace("hill-studio\",", "upgraded-shed\",", StringComparison.Ordinal)
                .Replace("127.0.0.1:8080", $"127.0.0.1:{FreePort.Next()}", StringComparison.Ordinal)
                .Replace("{ \"broker\": \"builtin\" }", $"{{ \"broker\": \"builtin\", \"listen\": \"127.0.0.1:{FreePort.Next()}\" }}", StringComparison.Ordinal),
            TestContext.Current.CancellationToken);
    }

    /// <summary>Runs what is installed as its service would be run, until it has fed the watchdog several times.</summary>
    private async Task WatchAsync(string config, string data)
    {
        using var manager = new NotifyListener();
        await using var daemon = VatWatchProcess.StartOther(
            _installed.At("usr/bin/vatwatch"),
            new Dictionary<string, string> { ["NOTIFY_SOCKET"] = manager.Address, ["WATCHDOG_USEC"] = "2000000" },
            "run", "--config", config, "--data", data);
        await manager.AwaitAsync("READY=1");
        await manager.AwaitAsync("WATCHDOG=1", 4);
        Assert.Equal(0, await daemon.StopAsync(Limit));
        await manager.AwaitAsync("STOPPING=1");
        Assert.NotEmpty(Directory.GetFiles(data));
    }
}
