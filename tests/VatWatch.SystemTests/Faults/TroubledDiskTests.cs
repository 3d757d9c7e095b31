using System.Diagnostics;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>The disk fails under the running daemon: people are told all the same, nothing that was shown is lost once it is back, and nothing is kept twice.</summary>
[Trait("Campaign", "faults")]
[Trait("Runs", "alone")]
public sealed class TroubledDiskTests
{
    private const string Topics = "vatwatch/test-studio/";

    /// <summary>The two seconds that the journal gives the disk, and the way to the phone; a busy test machine gets more.</summary>
    private static readonly double MostSecondsToTell = FaultFigures.Size(8, 5);

    private static readonly double MostGapSeconds = FaultFigures.Size(5, 2);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task A_full_disk_keeps_nobody_from_being_told_and_the_store_catches_up_when_there_is_room()
    {
        using var studio = new Studio();
        using var disk = TroubledDisk.ThatFills(studio.Data);
        await LiveThroughAsync("disk full", studio, disk, FaultFigures.Size(3, 45));
    }

    [Fact]
    public async Task A_disk_that_hangs_keeps_nobody_from_being_told_and_the_store_catches_up_when_it_answers()
    {
        using var studio = new Studio();
        using var disk = TroubledDisk.ThatHangs(studio.Data);
        await LiveThroughAsync("disk hangs", studio, disk, FaultFigures.Size(3, 45));
    }

    [Fact]
    public async Task A_store_that_another_program_holds_locked_keeps_nobody_from_being_told_and_catches_up()
    {
        using var studio = new Studio();
        using var disk = TroubledDisk.ThatIsLocked(studio.Data);
        await LiveThroughAsync("store locked", studio, disk, FaultFigures.Size(3, 45));
    }

    [Fact]
    public async Task A_disk_that_turns_read_only_keeps_nobody_from_being_told_and_what_was_on_it_is_sound_after_a_new_start()
    {
        using var studio = new Studio();
        using var disk = TroubledDisk.ThatTurnsReadOnly(studio.Data);
        await using var night = await Night.StartAsync(studio);
        disk.Break(night.Watch.Id);
        var broken = DateTimeOffset.UtcNow;
        var told = await night.OverheatAsync();
        await night.WaitForStoreFaultAsync();
        Assert.False(night.Watch.HasExited);
        await night.Watch.StopAsync(Patience);
        disk.Mend();
        disk.Remount();

        var shown = night.Shown;
        using (var record = new StoredRecord(studio.Data))
        {
            var before = shown.Readings.Where(reading => reading.Milliseconds < broken.AddSeconds(-3).ToUnixTimeMilliseconds()).ToHashSet();
            Assert.DoesNotContain(shown.MissingFrom(record), before.Contains);
        }

        await using (var again = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await Eventually.TrueAsync(() => again.Output.Contains("Watching", StringComparison.Ordinal), "it watches again", Patience);
            Assert.Equal(0, await again.StopAsync(Patience));
        }

        AssertSound(studio.Data);
        FaultFigures.AtMost("disk read-only", disk.Means, "told after", told.TotalSeconds, MostSecondsToTell, "s");
        FaultFigures.Hold("disk read-only", disk.Means, "sound after a new start, only readings of the outage lost", "the same", true);
    }

    private static async Task LiveThroughAsync(string campaign, Studio studio, TroubledDisk disk, int seconds)
    {
        await using var night = await Night.StartAsync(studio);
        try
        {
            await LiveThroughAsync(campaign, studio, disk, seconds, night);
        }
        finally
        {
            // A process that waits for a frozen disk cannot even be killed.
            disk.Mend();
        }
    }

    private static async Task LiveThroughAsync(string campaign, Studio studio, TroubledDisk disk, int seconds, Night night)
    {
        disk.Break(night.Watch.Id);
        var told = await night.OverheatAsync();

        // A disk that hangs is a fault of the store only after the 10 s of its writeTimeout.
        if (FaultFigures.IsFull || campaign != "disk hangs")
        {
            await night.WaitForStoreFaultAsync();
        }

        await Task.Delay(TimeSpan.FromSeconds(seconds), TestContext.Current.CancellationToken);
        await night.Instrument.TellAsync("set T 45");
        await night.Phone.WaitForAsync(Topics + "weld-yard/alarm/overheat", message => message.Payload.Contains("\"returned-unacknowledged\"", StringComparison.Ordinal), Patience);
        var waited = night.Shown;
        disk.Mend();
        var mended = Stopwatch.StartNew();
        await Eventually.TrueAsync(() => Lacking(studio.Data, waited).Count == 0, "everything that was shown is in the store", Patience);
        var caughtUp = mended.Elapsed;
        Assert.Equal(0, await night.Watch.StopAsync(Patience));

        var shown = night.Shown;
        using var record = new StoredRecord(studio.Data);
        Assert.Empty(shown.ChangesMissingFrom(record));
        Assert.Empty(shown.MissingFrom(record));
        Assert.DoesNotContain(record.Readings().GroupBy(reading => reading), same => same.Count() > 1);
        Assert.Equal(shown.Sentences.Distinct(), shown.Sentences);
        AssertSound(studio.Data);
        var size = $"{seconds} s by {disk.Means}";
        FaultFigures.AtMost(campaign, size, "told after", told.TotalSeconds, MostSecondsToTell, "s");
        FaultFigures.Hold(campaign, size, $"{shown.Readings.Count} readings shown, none lost, none twice, caught up in {caughtUp.TotalSeconds:0.0} s", "none lost, none twice", true);
        FaultFigures.AtMost(campaign, size, "longest gap between readings every 0.1 s", shown.LongestGap("liquor").TotalSeconds, MostGapSeconds, "s");
    }

    private static IReadOnlyList<string> Lacking(string folder, ShownNight shown)
    {
        try
        {
            using var record = new StoredRecord(folder);
            return [.. shown.ChangesMissingFrom(record), .. shown.MissingFrom(record).Select(reading => $"{reading}")];
        }
        catch (Microsoft.Data.Sqlite.SqliteException busy)
        {
            return [busy.Message];
        }
    }

    private static void AssertSound(string folder)
    {
        using var reader = StoreReader.OpenFolder(folder);
        Assert.Empty(reader.Verify());
    }
}
