using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Store;
using VatWatch.Store.Disk;
using VatWatch.Store.Schema;
using VatWatch.Store.Series;
using VatWatch.Store.Sql;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Schema;

public sealed class MigrationsTests
{
    public static TheoryData<int> OlderVersions => [.. Enumerable.Range(1, Migrations.Newest - 1)];

    [Theory]
    [MemberData(nameof(OlderVersions))]
    public async Task Every_older_version_is_brought_up_to_date_with_its_readings(int version)
    {
        var folder = NewFolder();
        using (var old = new StoreFile(folder).OpenForWriting(version))
        {
            Assert.Equal(version, Migrations.Version(old));
            old.Execute("INSERT INTO run (started, pid) VALUES (0, 1)");
            new MeasurementTable(old, 1).Add([Reading(1), Reading(2, null)]);
        }

        var refused = Assert.Throws<StoreUnavailableException>(() => StoreReader.OpenFolder(folder));
        Assert.Contains($"version {version}; wanted {Migrations.Newest}", refused.Message, StringComparison.Ordinal);
        var rig = Start(folder: folder);
        await rig.OfferAsync(Reading(3));

        Assert.Equal([Reading(1), Reading(2, null), Reading(3)], rig.All());
        Assert.Equal(Migrations.Newest, rig.Read(reader => Migrations.Version(reader.Sql)));
        Assert.Equal(Fresh(), rig.Read(reader => Schema(reader.Sql)));
        await rig.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    public static TheoryData<string> KeptFiles => [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "kept"), "schema-*.db").Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal)];

    /// <summary>Files that earlier versions of this program wrote, with a row or more in every table they had (KeptFile writes such a file).</summary>
    [Theory]
    [MemberData(nameof(KeptFiles))]
    public async Task A_kept_file_of_an_earlier_schema_is_brought_up_to_date_with_every_row(string name)
    {
        var folder = NewFolder();
        File.Copy(Path.Combine(AppContext.BaseDirectory, "kept", name), Path.Combine(folder, "vatwatch.db"));
        var before = KeptFile.Rows(folder);
        Assert.All(before, table => Assert.NotEmpty(table.Value));

        var rig = Start(folder: folder);
        await rig.OfferAsync(Reading(9000));

        Assert.Equal([Reading(1), Reading(2, null), Reading(9000)], rig.All());
        Assert.Empty(rig.Read(reader => reader.Verify()));
        Assert.Equal(Fresh(), rig.Read(reader => Schema(reader.Sql)));
        await rig.StopAsync();
        var after = KeptFile.Rows(folder);
        // A later step may add columns, which come last.
        Assert.Equal(Dropped.Intersect(before.Keys).Order(StringComparer.Ordinal), before.Keys.Except(after.Keys).Order(StringComparer.Ordinal));
        Assert.All(before.Where(table => after.ContainsKey(table.Key)), table => Assert.All(table.Value, row => Assert.Contains(after[table.Key], one => one == row || one.StartsWith($"{row}|", StringComparison.Ordinal))));
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Tables without a user since: months in files of an archive, what verbs asked of the daemon.</summary>
    private static readonly string[] Dropped = ["archive", "desk_request"];

    [Fact]
    public void Every_schema_that_was_written_before_the_newest_has_a_kept_file() =>
        Assert.Equal(Enumerable.Range(1, KeptFile.NewestKept).Select(version => $"schema-{version}.db").Order(StringComparer.Ordinal), KeptFiles.Select(row => row.Data));

    [Fact]
    public void A_step_that_fails_leaves_the_version_before_it()
    {
        var folder = NewFolder();
        var file = new StoreFile(folder);
        using (var old = file.OpenForWriting(1))
        {
            old.Execute("CREATE TABLE calibration (in_the_way INTEGER)");
        }

        Assert.Throws<StoreUnavailableException>(() => WatchStore.Open(folder, new(), TimeProvider.System, NullLogger<WatchStore>.Instance));

        using (var sql = file.OpenForWriting(1))
        {
            Assert.Equal(1, Migrations.Version(sql));
        }

        Directory.Delete(folder, recursive: true);
    }

    private static List<string> Fresh()
    {
        var folder = NewFolder();
        using var sql = new StoreFile(folder).OpenForWriting(Migrations.Newest);
        var schema = Schema(sql);
        Directory.Delete(folder, recursive: true);
        return schema;
    }

    private static List<string> Schema(SqlSession sql) =>
        sql.Query("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name", row => row.GetString(0));
}
