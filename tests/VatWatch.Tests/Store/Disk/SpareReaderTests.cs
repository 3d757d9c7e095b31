using VatWatch.Store;

namespace VatWatch.Tests.Store.Disk;

public sealed class SpareReaderTests
{
    [Fact]
    public async Task A_connection_that_was_given_back_reads_what_was_written_since()
    {
        await using var rig = StoreRig.Start();
        Assert.Empty(rig.All());
        for (var written = 1; written <= 3; written++)
        {
            rig.Store.Enqueue(StoreRig.Reading(written));
            await rig.Store.FlushAsync(TestContext.Current.CancellationToken);
            Assert.Equal(written, rig.All().Count);
        }
    }

    [Fact]
    public async Task The_schema_is_read_once()
    {
        await using var rig = StoreRig.Start();
        using var first = rig.Store.OpenReader();
        var session = first.Sql;
        first.Dispose();
        using var second = rig.Store.OpenReader();
        using var beside = rig.Store.OpenReader();
        Assert.Same(session, second.Sql);
        Assert.NotSame(session, beside.Sql);
    }

    [Fact]
    public async Task A_reader_that_is_closed_twice_gives_its_connection_to_one()
    {
        await using var rig = StoreRig.Start();
        var first = rig.Store.OpenReader();
        first.Dispose();
        using var second = rig.Store.OpenReader();
        first.Dispose();
        using var third = rig.Store.OpenReader();
        Assert.NotSame(second.Sql, third.Sql);
    }

    [Fact]
    public async Task A_connection_that_somebody_still_reads_from_is_not_kept()
    {
        await using var rig = StoreRig.Start();
        rig.Store.Enqueue(StoreRig.Reading(1));
        rig.Store.Enqueue(StoreRig.Reading(2));
        await rig.Store.FlushAsync(TestContext.Current.CancellationToken);
        var reader = rig.Store.OpenReader();
        var session = reader.Sql;
        using var rows = reader.Measurements(StoreRig.Madder, StoreRig.Dusk, StoreRig.Dusk.AddHours(1)).GetEnumerator();
        Assert.True(rows.MoveNext());
        reader.Dispose();
        using var next = rig.Store.OpenReader();
        Assert.NotSame(session, next.Sql);
    }

    [Fact]
    public async Task Another_file_under_the_name_is_read_and_not_the_one_that_was_moved()
    {
        await using var rig = StoreRig.Start();
        rig.Store.Enqueue(StoreRig.Reading(1));
        await rig.Store.FlushAsync(TestContext.Current.CancellationToken);
        Assert.Single(rig.All());
        var file = Path.Combine(rig.Folder, "vatwatch.db");
        File.Move(file, file + ".away");
        Assert.Contains("vatwatch.db is gone", Assert.Throws<StoreUnavailableException>(rig.Store.OpenReader).Message, StringComparison.Ordinal);
        File.Move(file + ".away", file);
        Assert.Single(rig.All());
    }

    [Fact]
    public async Task A_store_that_was_read_leaves_no_log_when_it_is_closed_and_the_last_reader_may_come_after()
    {
        var folder = StoreRig.NewFolder();
        try
        {
            StoreReader late;
            await using (var rig = StoreRig.Start(folder: folder))
            {
                Assert.Empty(rig.All());
            }

            Assert.False(File.Exists(Path.Combine(folder, "vatwatch.db-wal")));
            await using (var rig = StoreRig.Start(folder: folder))
            {
                late = rig.Store.OpenReader();
            }

            late.Dispose();
            Assert.Throws<InvalidOperationException>(() => late.Sql.Whole("SELECT count(*) FROM run"));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
