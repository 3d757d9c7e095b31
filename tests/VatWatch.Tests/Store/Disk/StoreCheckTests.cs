using VatWatch.Store;
using VatWatch.Store.Disk;
using VatWatch.Store.Schema;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

public sealed class StoreCheckTests
{
    [Fact]
    public async Task A_store_that_was_only_written_by_us_is_sound()
    {
        await using var rig = Start();
        await rig.OfferAsync(StoreSizeTests.Night(hours: 1));
        await rig.OfferAsync(Reading(-60_000), Reading(-400_000_000, double.NaN), Reading(5, double.NegativeInfinity), Reading(6, 1) with { Value = null });
        Assert.Empty(rig.Read(reader => reader.Verify()));
    }

    [Theory]
    [InlineData("UPDATE measurement SET circumstance = 77", "3 readings refer to a circumstance that is not there.")]
    [InlineData("UPDATE measurement SET raw = 'x' WHERE id = (SELECT min(id) FROM measurement)", "1 readings hold something that is not a packed number.")]
    [InlineData("PRAGMA foreign_keys = 0; DELETE FROM probe", "1 rows of circumstance refer to a row of probe that is not there.")]
    [InlineData("UPDATE circumstance SET quality = 9", "1 circumstances have a quality that is not 0 to 3.")]
    [InlineData("INSERT INTO late (measurement) VALUES (5)", "1 late readings are not there.")]
    [InlineData("UPDATE rollup_15 SET count = 9", "2 quarter-hour rollups do not count what the readings of their time count.")]
    [InlineData("DELETE FROM rollup_1", "2 minute rollups do not count what the readings of their time count.")]
    public async Task A_contradiction_is_said_in_a_sentence(string sql, string sentence)
    {
        await using var rig = Start();
        await rig.OfferAsync(Reading(0), Reading(2000), Reading(4000));
        await rig.StopAsync();
        using (var file = new StoreFile(rig.Folder).OpenForWriting(Migrations.Newest))
        {
            file.Execute("PRAGMA foreign_keys = 0");
            file.ExecuteAll(sql);
        }

        using var reader = StoreReader.OpenFolder(rig.Folder);
        Assert.Contains(sentence, reader.Verify());
    }

    [Fact]
    public async Task Damage_is_said_in_a_sentence()
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, 5000).Select(n => Reading(n)));
        await rig.StopAsync();
        var file = Path.Combine(rig.Folder, "vatwatch.db");
        var bytes = File.ReadAllBytes(file);
        bytes.AsSpan(bytes.Length / 2, 5000).Fill(0xA5);
        File.WriteAllBytes(file, bytes);

        using var reader = StoreReader.OpenFolder(rig.Folder);
        Assert.Contains(reader.Verify(), sentence => sentence.StartsWith("SQLite found damage: ", StringComparison.Ordinal));
    }
}
