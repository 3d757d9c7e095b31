using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

public sealed class StoreBackupTests
{
    [Fact]
    public async Task A_copy_made_while_writing_opens_as_a_store_with_all_that_was_committed()
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, 3000).Select(n => Reading(n, n / 8.0)));
        var elsewhere = NewFolder();
        rig.Store.Enqueue(Reading(9999));
        Backup(rig, Path.Combine(elsewhere, "vatwatch.db"));
        await rig.OfferAsync(Reading(5000));

        await using (var copy = Start(folder: elsewhere))
        {
            Assert.Equal(rig.All()[..3000], copy.All());
        }

        Assert.DoesNotContain(Directory.GetFiles(elsewhere), file => file.EndsWith(".part", StringComparison.Ordinal));
        Directory.Delete(elsewhere, recursive: true);
    }

    [Fact]
    public async Task An_existing_file_is_not_overwritten()
    {
        await using var rig = Start();
        var file = Path.Combine(rig.Folder, "copy.db");
        File.WriteAllText(file, "precious");
        var refused = Assert.Throws<StoreUnavailableException>(() => Backup(rig, file));
        Assert.Contains("that file exists", refused.Message, StringComparison.Ordinal);
        Assert.Equal("precious", File.ReadAllText(file));
    }

    [Fact]
    public async Task A_place_that_cannot_be_written_is_said_in_a_sentence()
    {
        await using var rig = Start();
        var refused = Assert.Throws<StoreUnavailableException>(() => Backup(rig, "/sys/kernel/copy.db"));
        Assert.Contains("'/sys/kernel/copy.db'", refused.Message, StringComparison.Ordinal);
        Assert.EndsWith("nothing was kept.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task With_leave_to_replace_an_existing_file_is_replaced()
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(1));
        var file = Path.Combine(rig.Folder, "copy.db");
        File.WriteAllText(file, "older");
        using (var reader = rig.Store.OpenReader())
        {
            reader.Backup(file, replace: true);
        }

        using var copy = StoreReader.OpenFile(file);
        Assert.Empty(copy.Verify());
        Assert.Equal([Reading(1)], copy.Measurements(Madder, Dusk, Dusk.AddDays(1)));
    }

    private static void Backup(StoreRig rig, string file)
    {
        using var reader = rig.Store.OpenReader();
        reader.Backup(file);
    }
}
