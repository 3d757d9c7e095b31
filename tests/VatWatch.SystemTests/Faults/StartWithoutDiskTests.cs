using System.Diagnostics;
using System.Globalization;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>The disk takes nothing when the daemon starts: it watches from memory, says so, shows its pages, and takes the store up when the disk does.</summary>
[Trait("Campaign", "faults")]
public sealed class StartWithoutDiskTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_start_on_a_disk_that_takes_nothing_watches_shows_its_pages_and_takes_the_store_up_later(bool hasRunBefore)
    {
        using var studio = new Studio();
        studio.WriteConfig(
            """ "demo": { "kind": "simulation", "start": "45 °C", "ambient": "18 °C", "heater": "1500 W" } """,
            Studio.Vat("weld-yard", """{ "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "1 s" }"""));
        if (hasRunBefore)
        {
            await using var before = VatWatchProcess.Start("run", "--config", studio.Config);
            await Eventually.TrueAsync(() => before.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Patience);
            Assert.Equal(0, await before.StopAsync(Patience));
        }

        // No file may grow: what a full disk does to whoever writes. The runtime's own memory for code is a file too, unless it may be written and run.
        await using var watch = VatWatchProcess.StartUnder("sh", ["-c", "trap '' XFSZ; ulimit -S -f 0; DOTNET_EnableWriteXorExecute=0 exec \"$0\" \"$@\""], "run", "--config", studio.Config);
        var since = Stopwatch.StartNew();
        await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Patience);
        Assert.False(watch.HasExited, watch.Output + watch.Errors);
        using var page = new HttpClient { BaseAddress = new(studio.Url), Timeout = Patience };
        await Eventually.TrueAsync(() => watch.Output.Contains("Alarm store-fault", StringComparison.Ordinal), "store-fault is raised", Patience);
        var told = since.Elapsed.TotalSeconds;
        Assert.Contains("store-fault", await page.GetStringAsync("/api/alarms", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        foreach (var path in (string[])["/", "/alarms", "/vats/weld-yard", "/calibration", "/dosing"])
        {
            using var reply = await page.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.True(reply.IsSuccessStatusCode, $"{path}: {reply.StatusCode}");
        }

        using (var mend = Process.Start("prlimit", ["--pid", watch.Id.ToString(CultureInfo.InvariantCulture), "--fsize=unlimited"]))
        {
            await mend.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        var room = Stopwatch.StartNew();

        await Eventually.TrueAsync(() => watch.Output.Contains("commits succeed again", StringComparison.Ordinal), "the store is taken up", Patience);
        var size = hasRunBefore ? "a store from before" : "an empty folder";
        FaultFigures.AtMost("start on a full disk", size, "every page shown; watching, and store-fault raised after", told, FaultFigures.Size(30, 15), "s");
        FaultFigures.AtMost("start on a full disk", size, "taken up once there is room, after", room.Elapsed.TotalSeconds, 30, "s");
        Assert.Equal(0, await watch.StopAsync(Patience));
        using var reader = StoreReader.OpenFolder(studio.Data);
        Assert.Empty(reader.Verify());
        Assert.NotEmpty(reader.Latest());
        Assert.True(OperatingSystem.IsWindows() || UnixFileMode.None == (File.GetUnixFileMode(Path.Combine(studio.Data, "vatwatch.db")) & (UnixFileMode.OtherRead | UnixFileMode.OtherWrite)));
    }
}
