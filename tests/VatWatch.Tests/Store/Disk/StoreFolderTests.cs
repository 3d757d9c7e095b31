using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Store;
using VatWatch.Store.Disk;
using VatWatch.Store.Schema;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

public sealed class StoreFolderTests
{
    [Fact]
    public void A_folder_whose_months_were_moved_into_files_is_refused_with_what_to_do_and_left_as_it_is()
    {
        var folder = NewFolder();
        var month = Path.Combine(Directory.CreateDirectory(Path.Combine(folder, "archive")).FullName, "madder-lane-2031-03.parquet");
        File.Copy(Path.Combine(AppContext.BaseDirectory, "kept", "schema-9.db"), Path.Combine(folder, "vatwatch.db"));
        File.WriteAllText(month, "PAR1");

        var refused = Assert.Throws<StoreUnavailableException>(() => WatchStore.Open(folder, new(), TimeProvider.System, NullLogger<WatchStore>.Instance));

        Assert.Contains("--out readings.parquet", refused.Message, StringComparison.Ordinal);
        Assert.Contains("move it out of the data folder", refused.Message, StringComparison.Ordinal);
        using (var sql = new StoreFile(folder).OpenForWriting(9))
        {
            Assert.Equal(9, Migrations.Version(sql));
        }

        File.Delete(month);
        Assert.Null(StoreFolder.Fault(folder));
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void A_name_that_no_disk_takes_is_a_fault() => Assert.Contains("longer than a disk takes", StoreFolder.Fault($"/tmp/{new string('x', 300)}"), StringComparison.Ordinal);

    [Fact]
    public void A_folder_that_is_not_there_yet_is_no_fault() => Assert.Null(StoreFolder.Fault(Path.Combine(Path.GetTempPath(), "vatwatch-not-there")));
}
