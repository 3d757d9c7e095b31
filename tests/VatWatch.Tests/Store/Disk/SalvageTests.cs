using VatWatch.Store.Disk;
using VatWatch.Store.Schema;


namespace VatWatch.Tests.Store.Disk;

public sealed class SalvageTests
{
    [Fact]
    public void A_damaged_database_of_an_older_schema_gives_its_alarms_to_the_new_one()
    {
        var (old, fresh) = (StoreRig.NewFolder(), StoreRig.NewFolder());
        using (var damaged = new StoreFile(old).OpenForWriting(3))
        {
            damaged.Execute("INSERT INTO run (started, pid) VALUES (0, 1)");
            damaged.Execute(
                """
                INSERT INTO alarm_status (vat, alarm, state, priority, run, since_utc, since_monotonic, since_trusted, unit, text, action)
                VALUES ('madder-lane', 'overheat', 'acknowledged', 'critical', 1, 0, 0, 1, '', 'Too hot.', 'Unplug it.')
                """);
        }

        using (var sql = new StoreFile(fresh).OpenForWriting(Migrations.Newest))
        {
            var said = Salvage.CarryOver(sql, new StoreFile(old).File);
            Assert.StartsWith("runs, calibrations, alarms", said, StringComparison.Ordinal);
            Assert.Equal("acknowledged", sql.Scalar("SELECT state FROM alarm_status WHERE alarm = 'overheat' AND aside_utc IS NULL"));
        }

        Directory.Delete(old, recursive: true);
        Directory.Delete(fresh, recursive: true);
    }
}
