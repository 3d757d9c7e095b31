using VatWatch.Sessions;
using VatWatch.Testing;
using VatWatch.Testing.Nights;

namespace VatWatch.SystemTests;

/// <summary>Reports, comparisons and a vat's life as the built binary makes them of two simulated nights.</summary>
public sealed class ReportsTests(ReportsTests.TwoNights nights) : IClassFixture<ReportsTests.TwoNights>
{
    [Fact]
    public async Task Pictures_are_the_same_on_a_machine_without_fonts()
    {
        var with = await ReportAsync("with.png", ["env"]);
        var without = await ReportAsync("without.png", ["env", "-u", "XDG_DATA_HOME", "HOME=/nonexistent", "FONTCONFIG_FILE=/nonexistent", "FONTCONFIG_PATH=/nonexistent"]);
        Assert.Equal(with, without);
        Assert.InRange(with.Length, 50_000, 1_000_000);
    }

    [Fact]
    public async Task A_runaway_heater_is_told_with_what_to_do_next_time()
    {
        var page = System.Text.Encoding.UTF8.GetString(await ReportAsync("runaway.html", ["env"]));
        Assert.Contains("Session 2026-03-10", page);
        Assert.Matches("The liquor was at or above the limit for 5 h [0-9]{2} min: switch the heater off [0-9]+ min earlier, or let a thermostat do it.", page);
        Assert.Contains("too hot", page);
        Assert.Contains("dip 3", page);
        Assert.Contains("acknowledged", page);
    }

    [Fact]
    public async Task A_span_takes_its_entries_and_conditions_too()
    {
        var page = await RunAsync("span.html", "report", "--vat", "madder-lane", "--from", "2026-03-10T06:00Z", "--to", "2026-03-10T14:00Z");
        Assert.Contains("pulled the plug", page);
        Assert.Contains("too hot", page);
        Assert.DoesNotContain("Session 2026", page);
    }

    [Fact]
    public async Task Two_sessions_are_compared_and_the_vat_has_a_life()
    {
        Assert.Contains("Hottest liquor", await RunAsync("both.html", "compare", "--session", "madder-lane/2026-03-03", "--session", "madder-lane/2026-03-10"));
        Assert.Contains("Slope of the electrode", await RunAsync("life.svg", "life", "--vat", "madder-lane"));
    }

    [Theory]
    [InlineData("'2031-01-01'; wanted one of '2026-03-10', '2026-03-03'.", "report", "--vat", "madder-lane", "--session", "2031-01-01")]
    [InlineData("--session was given together with --from or --to", "report", "--vat", "madder-lane", "--session", "2026-03-03", "--from", "2026-03-03")]
    [InlineData("--session is given 1 times; wanted 2 to 4.", "compare", "--session", "madder-lane/2026-03-03")]
    [InlineData("--session is 'nowhere/1'; wanted VAT/ID with one of 'madder-lane'.", "compare", "--session", "madder-lane/2026-03-03", "--session", "nowhere/1")]
    [InlineData("--vat is 'nowhere'; wanted one of 'madder-lane'.", "life", "--vat", "nowhere")]
    public async Task What_is_not_there_is_named(string says, params string[] arguments)
    {
        var (code, _, errors) = await VatWatchProcess.RunAsync(TimeSpan.FromSeconds(30), [.. arguments, .. nights.Where, "--out", Path.Combine(nights.Folder, "never.html")]);
        Assert.Equal(64, code);
        Assert.Contains(says, errors);
    }

    private Task<byte[]> ReportAsync(string name, string[] environment)
    {
        var file = Path.Combine(nights.Folder, name);
        return WriteAsync([.. environment, VatWatchProcess.Binary, "report", "--vat", "madder-lane", "--session", "2026-03-10", .. nights.Where, "--out", file], file);
    }

    private static async Task<byte[]> WriteAsync(string[] command, string file)
    {
        await ToolRun.RequireAsync(command[0], command[1..]);
        return await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
    }

    private async Task<string> RunAsync(string name, params string[] arguments)
    {
        var file = Path.Combine(nights.Folder, name);
        var (code, _, errors) = await VatWatchProcess.RunAsync(TimeSpan.FromSeconds(30), [.. arguments, .. nights.Where, "--out", file]);
        Assert.Equal((0, ""), (code, errors));
        return await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
    }

    /// <summary>A store with the good night and the one of the runaway heater.</summary>
    public sealed class TwoNights : IAsyncLifetime
    {
        public string Folder { get; } = Directory.CreateTempSubdirectory("vatwatch-reports").FullName;

        public string[] Where => ["--config", Path.Combine(Path.GetDirectoryName(VatWatchProcess.Binary)!, "config", "vatwatch.json"), "--data", Folder];

        public async ValueTask InitializeAsync()
        {
            var runs = new List<(DemoNight, DemoNightRun)>();
            foreach (var night in DemoNight.All.Take(2))
            {
                runs.Add((night, await DemoNightRun.OfAsync(night)));
            }

            Assert.Equal([new SessionId("2026-03-03"), new SessionId("2026-03-10")], await DemoNightStore.WriteAsync(Folder, runs));
        }

        public ValueTask DisposeAsync()
        {
            Directory.Delete(Folder, recursive: true);
            return ValueTask.CompletedTask;
        }
    }
}
