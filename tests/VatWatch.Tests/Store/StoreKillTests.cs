using System.Globalization;
using VatWatch.Store;
using VatWatch.Testing;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store;

/// <summary>SIGKILL of a process that writes. Pass criteria: design.md §3 rule 3.</summary>
[Trait("Starts", "processes")]
public sealed class StoreKillTests
{
    [Fact]
    public void A_kill_loses_no_acknowledged_write()
    {
        var folder = NewFolder();
        var acknowledged = 0;
        for (var round = 1; round <= 3; round++)
        {
            using var child = new StoreHost("acknowledged", folder);
            while (int.Parse(child.Next(), CultureInfo.InvariantCulture) < 20 * round)
            {
            }

            var said = child.Kill();
            acknowledged += said.Count == 0 ? 20 * round : int.Parse(said[^1], CultureInfo.InvariantCulture);
            using var reader = StoreReader.OpenFolder(folder);
            var kept = CalibrationTable.Of(reader, new("liquor")).Count;
            Assert.InRange(kept, acknowledged, acknowledged + 1); // one more may be on disk without its answer having been heard
            acknowledged = kept;
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void A_kill_loses_at_most_one_commit_interval_of_readings()
    {
        var folder = NewFolder();
        List<(int Number, int Milliseconds)> offered = [];
        using (var child = new StoreHost("offered", folder))
        {
            do
            {
                offered.Add(Parse(child.Next()));
            }
            while (offered[^1].Milliseconds < 2700);

            offered.AddRange(child.Kill().Select(Parse));
        }

        using var reader = StoreReader.OpenFolder(folder);
        var kept = reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Select(row => (int)row.Measurement.Value!).ToList();

        Assert.Equal(Enumerable.Range(1, kept.Count), kept);
        var firstLost = offered.Find(one => one.Number == kept.Count + 1);
        // The interval is 1 s; the other second stands for the timer and the commit itself on a busy machine.
        Assert.InRange(offered[^1].Milliseconds - firstLost.Milliseconds, 0, 2000);
        reader.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>24 probes at 1 Hz; the process is killed at a random moment, again and again.</summary>
    [Fact]
    [Trait("Campaign", "faults")]
    public async Task Kills_at_random_moments_lose_no_acknowledged_batch_and_at_most_one_interval()
    {
        var kills = FaultFigures.Size(4, 60);
        var folder = NewFolder();
        var random = new Random(24);
        var worst = 0;
        for (var round = 0; round < kills; round++)
        {
            List<string> said = [];
            using (var child = new StoreHost("night", folder))
            {
                said.Add(child.Next());
                await Task.Delay(TimeSpan.FromMilliseconds(random.Next(3000)), TestContext.Current.CancellationToken);
                said.AddRange(child.Kill());
            }

            var offered = said.Count(line => line.StartsWith("offered", StringComparison.Ordinal));
            var acknowledged = said.Where(line => line.StartsWith("acknowledged", StringComparison.Ordinal)).Select(line => int.Parse(line.Split(' ')[1], CultureInfo.InvariantCulture)).DefaultIfEmpty(0).Max();
            using var reader = StoreReader.OpenFolder(folder);
            Assert.Empty(reader.Verify());
            var kept = reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Where(row => row.Run == reader.NewestRun)
                .GroupBy(row => (int)row.Measurement.Value!).ToDictionary(batch => batch.Key, batch => batch.Count());
            Assert.Equal(Enumerable.Range(1, kept.Count), kept.Keys.Order());
            Assert.InRange(kept.Count, acknowledged, offered + 1);
            worst = Math.Max(worst, offered - kept.Count);
        }

        FaultFigures.Hold("kills, store", $"{kills} kills", "no acknowledged batch lost, no fault found", "the same", true);

        // The interval is 1 s: the batch of the second that had begun, the one before while its commit is due or on its way, and one for a busy machine.
        FaultFigures.AtMost("kills, store", $"{kills} kills", "batches of one second not yet committed", worst, 3);
        Directory.Delete(folder, recursive: true);
    }

    private static (int Number, int Milliseconds) Parse(string line)
    {
        var parts = line.Split(' ');
        return (int.Parse(parts[0], CultureInfo.InvariantCulture), int.Parse(parts[1], CultureInfo.InvariantCulture));
    }
}
