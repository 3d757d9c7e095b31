using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>Two daemons that want one folder, and backups that are killed, or taken of what is being killed.</summary>
[Trait("Campaign", "faults")]
public sealed class TwoWatchesTests
{
    private static readonly int Rounds = FaultFigures.Size(3, 20);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task A_second_daemon_is_refused_in_a_sentence_and_the_first_watches_on()
    {
        using var studio = new Studio();
        using var other = new Studio();
        await using var night = await Night.StartAsync(studio);
        File.WriteAllText(other.Config, File.ReadAllText(studio.Config).Replace(studio.Url, other.Url, StringComparison.Ordinal));
        for (var round = 0; round < Rounds; round++)
        {
            var (code, output, errors) = await VatWatchProcess.RunAsync(Patience, "run", "--config", other.Config);
            Assert.Equal(1, code);
            Assert.Contains($"process {night.Watch.Id} is using it", errors + output, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", errors + output, StringComparison.Ordinal);
        }

        File.Delete(Path.Combine(studio.Data, "vatwatch.lock"));
        var (refused, _, sentence) = await VatWatchProcess.RunAsync(Patience, "run", "--config", other.Config);
        Assert.Equal(1, refused);
        Assert.Contains("vatwatch.sock', though its vatwatch.lock is gone", sentence, StringComparison.Ordinal);

        Assert.Equal(0, await night.Watch.StopAsync(Patience));
        using var record = new StoredRecord(studio.Data);
        Assert.Empty(night.Shown.MissingFrom(record));
        FaultFigures.Hold("two daemons, one folder", $"{Rounds} tries", $"{Rounds} refused, {night.Shown.Readings.Count} readings of the first, none lost", "all refused, none lost", true);
    }

    [Fact]
    public async Task A_backup_that_is_killed_or_taken_of_a_killed_store_is_whole_or_not_there_and_a_restored_one_goes_on()
    {
        using var studio = new Studio();
        await using var night = await Night.StartAsync(studio);
        await night.OverheatAsync();
        var copy = Path.Combine(studio.Folder, "copy", "night.db");
        Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
        var random = new Random(40);
        var (whole, absent) = (0, 0);
        for (var round = 0; round < Rounds; round++)
        {
            File.Delete(copy);
            await using var backup = VatWatchProcess.Start("backup", copy, "--config", studio.Config);
            await Eventually.TrueAsync(() => backup.HasExited || File.Exists(copy + ".part") || File.Exists(copy), "the copy is being made", Patience);
            await Task.Delay(random.Next(40), TestContext.Current.CancellationToken);
            if (round % 2 == 0)
            {
                await backup.KillAsync();
                File.Delete(copy + ".part");
            }
            else
            {
                await night.Watch.KillAsync();
                Assert.Equal(0, await backup.ExitCodeAsync(Patience));
                Assert.True(File.Exists(copy));
                await night.Watch.DisposeAsync();
                night.Watch = VatWatchProcess.Start("run", "--config", studio.Config);
                await Eventually.TrueAsync(() => night.Watch.Output.Contains("is open", StringComparison.Ordinal), "it watches again", Patience);
            }

            if (File.Exists(copy))
            {
                using var reader = StoreReader.OpenFile(copy);
                Assert.Empty(reader.Verify());
                whole++;
            }
            else
            {
                absent++;
            }
        }

        await night.Watch.KillAsync();
        Assert.Equal(0, (await VatWatchProcess.RunAsync(Patience, "backup", copy, "--replace", "--config", studio.Config)).Code);
        await RestoreAsync(studio, copy);
        FaultFigures.Hold("backups and kills", $"{Rounds} rounds", $"{whole} copies whole, {absent} not there, the restored one goes on", "each whole or not there", whole + absent == Rounds);
    }

    /// <summary>A copy becomes the store of an empty folder; alarms stand as they stood, and nothing of it is lost.</summary>
    private static async Task RestoreAsync(Studio studio, string copy)
    {
        using var fresh = new Studio();
        Directory.CreateDirectory(fresh.Data);
        File.Copy(copy, Path.Combine(fresh.Data, "vatwatch.db"));
        File.WriteAllText(fresh.Config, File.ReadAllText(studio.Config)
            .Replace(studio.Data, fresh.Data, StringComparison.Ordinal).Replace(studio.Url, fresh.Url, StringComparison.Ordinal));
        IReadOnlyList<(string, long, double?)> before;
        using (var record = new StoredRecord(studio.Data))
        {
            before = record.Readings();
        }

        await using var watch = VatWatchProcess.Start("run", "--config", fresh.Config);
        using var page = new HttpClient { BaseAddress = new(fresh.Url), Timeout = Patience };
        await Eventually.TrueAsync(() => watch.Output.Contains("Watching", StringComparison.Ordinal), "the restored one watches", Patience);
        Assert.Contains("\"overheat\"", await page.GetStringAsync("/api/alarms", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(0, await watch.StopAsync(Patience));
        using var after = new StoredRecord(fresh.Data);
        Assert.Equal(before, after.Readings().Take(before.Count));
    }
}
