using System.Globalization;
using System.Text.RegularExpressions;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Package;

/// <summary>config/systemd/vatwatch.service, judged by systemd's own tools.</summary>
public sealed partial class ServiceUnitTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("unit-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Systemd_finds_nothing_wrong_with_it()
    {
        var run = await ToolRun.RunAsync("systemd-analyze", ["verify", "--man=no", await CopyAsync()]);
        Assert.Equal((0, ""), (run.ExitCode, string.Join('\n', run.Error.Split('\n').Where(line => line.Contains("vatwatch", StringComparison.Ordinal)))));
    }

    /// <summary>Without any hardening systemd gives 9.6; its own word "OK" ends at 5. Measured for this file: 1.6.</summary>
    [Fact]
    public async Task Its_exposure_stays_below_what_it_was_made_with()
    {
        var run = await ToolRun.RequireAsync("systemd-analyze", ["security", "--offline=true", "--no-pager", await CopyAsync()]);
        var level = double.Parse(ExposurePattern().Match(run.Output).Groups["level"].Value, CultureInfo.InvariantCulture);
        Assert.InRange(level, 0.1, 1.7);
    }

    [Fact]
    public async Task It_waits_for_the_watch_to_say_ready_and_watches_it()
    {
        var lines = await File.ReadAllLinesAsync(SourceTree.At("config", "systemd", "vatwatch.service"), TestContext.Current.CancellationToken);
        Assert.Contains("Type=notify", lines);
        Assert.Contains("WatchdogSec=60", lines);
        Assert.Contains("WatchdogSignal=SIGKILL", lines);
        Assert.Contains("Restart=always", lines);
        Assert.Contains("RestartPreventExitStatus=78", lines);
        Assert.All((string[])["OOMScoreAdjust=", "MemoryMax=", "TasksMax=", "LimitNOFILE=", "UMask=0077", "PrivateUsers=yes"], key => Assert.Contains(lines, line => line.StartsWith(key, StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("char-ttyUSB", "usbserial")]
    [InlineData("char-ttyACM", "cdc_acm")]
    [InlineData("char-i2c", "i2c_dev")]
    [InlineData("char-spi", "spidev")]
    public async Task A_kind_of_device_is_allowed_after_its_driver_is_there(string kind, string module)
    {
        var lines = await File.ReadAllLinesAsync(SourceTree.At("config", "systemd", "vatwatch.service"), TestContext.Current.CancellationToken);
        Assert.Contains($"DeviceAllow={kind} rw", lines);
        Assert.All((string[])["Wants=", "After=modprobe"], key => Assert.Contains(lines, line => line.StartsWith(key, StringComparison.Ordinal) && line.Contains($"modprobe@{module}.service", StringComparison.Ordinal)));
    }

    /// <summary>The program is not installed on the machine of the tests, so a copy names one that is there.</summary>
    private async Task<string> CopyAsync()
    {
        var copy = Path.Combine(_folder, "vatwatch.service");
        var text = await File.ReadAllTextAsync(SourceTree.At("config", "systemd", "vatwatch.service"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(copy, text.Replace("/usr/lib/vatwatch/vatwatch ", $"{VatWatchProcess.Binary} ", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        return copy;
    }

    [GeneratedRegex(@"exposure level for vatwatch\.service: (?<level>[0-9.]+)")]
    private static partial Regex ExposurePattern();
}
