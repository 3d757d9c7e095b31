using VatWatch.Store;
using VatWatch.Store.Disk;

namespace VatWatch.Tests.Store.Disk;

/// <summary>A second writer beside the one that holds the folder, on a real database.</summary>
public sealed class StoreBesideTests
{
    [Fact]
    public async Task A_write_beside_a_busy_writer_gets_in_and_loses_it_nothing()
    {
        await using var rig = StoreRig.Start();
        var writing = Task.Run(
            async () =>
            {
                for (var second = 0; second < 200; second++)
                {
                    await rig.OfferAsync(StoreRig.Reading(second));
                }
            },
            TestContext.Current.CancellationToken);
        var rows = new List<long>();
        for (var round = 0; round < 20; round++)
        {
            rows.Add(StoreBeside.Write(rig.Folder, transaction => CalibrationTable.Append(transaction, new ProbeId("glass"), StoreRig.Dusk, "{}")));
        }

        await writing;
        Assert.Equal(200, rig.All().Count);
        Assert.Equal(rows, rig.Read(CalibrationTable.All).Select(one => one.Id));
        Assert.Equal(rows[^1], rig.Read(CalibrationTable.NewestRow));
        Assert.True(rig.Store.Health.Ok);
    }

    [Fact]
    public async Task What_throws_leaves_nothing()
    {
        await using var rig = StoreRig.Start();
        Assert.Throws<InvalidDataException>(() => StoreBeside.Write<int>(rig.Folder, transaction =>
        {
            CalibrationTable.Append(transaction, new ProbeId("glass"), StoreRig.Dusk, "{}");
            throw new InvalidDataException("changed its mind");
        }));
        Assert.Equal(0, rig.Read(CalibrationTable.NewestRow));
    }

    [Fact]
    public void A_folder_without_a_store_is_said()
    {
        var folder = StoreRig.NewFolder();
        var refused = Assert.Throws<StoreUnavailableException>(() => StoreBeside.Write(folder, _ => 0));
        Assert.Contains("there is no vatwatch.db", refused.Message, StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Looking_whether_a_folder_is_held_tells_and_changes_nothing()
    {
        var folder = StoreRig.NewFolder();
        Assert.False(StoreBeside.IsHeld(folder));
        Assert.False(StoreBeside.IsHeld(Path.Combine(folder, "no-such")));
        var rig = StoreRig.Start(folder: folder);
        Assert.True(StoreBeside.IsHeld(folder));
        Assert.True(StoreBeside.IsHeld(folder));
        await rig.StopAsync();
        Assert.False(StoreBeside.IsHeld(folder));
        Directory.Delete(folder, recursive: true);
    }
}
