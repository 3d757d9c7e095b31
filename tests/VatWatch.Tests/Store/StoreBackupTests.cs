using VatWatch.Store;
using VatWatch.Tests.Store.Archive;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store;

public sealed class StoreBackupTests
{
    [Fact]
    public async Task A_copy_made_while_writing_opens_as_a_store_with_all_that_was_committed()
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, 3000).Select(n => Reading(n, n / 8.0)));
        var elsewhere = NewFolder();
        rig.Store.Enqueue(Reading(9999));
        rig.Store.Backup(Path.Combine(elsewhere, "vatwatch.db"));
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
        var refused = Assert.Throws<StoreUnavailableException>(() => rig.Store.Backup(file));
        Assert.Contains("that file exists", refused.Message, StringComparison.Ordinal);
        Assert.Equal("precious", File.ReadAllText(file));
    }

    [Fact]
    public async Task A_place_that_cannot_be_written_is_said_in_a_sentence()
    {
        await using var rig = Start();
        var refused = Assert.Throws<StoreUnavailableException>(() => rig.Store.Backup("/sys/kernel/copy.db"));
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
        rig.Read(reader => reader.Backup(file, replace: true));
        using var copy = StoreReader.OpenFile(file);
        Assert.Empty(copy.Verify());
        Assert.Equal([Reading(1)], copy.Measurements(Madder, Dusk, Dusk.AddDays(1)));
    }

    [Fact]
    public async Task The_archive_goes_with_the_copy_and_both_are_read_together()
    {
        await using var rig = Start();
        await rig.OfferAsync(ArchiveRig.SixtyDays());
        await ArchiveRig.PassAsync(rig);
        var elsewhere = NewFolder();
        var file = Path.Combine(elsewhere, "of-the-year.db");

        Assert.Equal(4, rig.Read(reader => reader.Backup(file)));
        Assert.Equal(4, rig.Read(reader => reader.Backup(Path.Combine(elsewhere, "again.db")))); // the same archive files are there already

        using (var copy = StoreReader.OpenFile(file))
        {
            Assert.Empty(copy.Verify());
            Assert.Equal(rig.All(), copy.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Select(row => row.Measurement));
        }

        File.WriteAllText(Path.Combine(elsewhere, "archive", "weld-yard-2031-03.parquet"), "another site's");
        var refused = Assert.Throws<StoreUnavailableException>(() => rig.Read(reader => reader.Backup(Path.Combine(elsewhere, "third.db"))));
        Assert.Contains("exists and is another file", refused.Message, StringComparison.Ordinal);
        Directory.Delete(elsewhere, recursive: true);
    }
}
