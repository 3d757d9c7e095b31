using VatWatch.Measurements;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

public sealed class StoreSizeTests
{
    [Fact]
    public async Task A_night_of_three_probes_takes_at_most_30_bytes_a_reading_with_its_rollups()
    {
        var folder = NewFolder();
        await Start(folder: folder).StopAsync();
        var empty = new FileInfo(Path.Combine(folder, "vatwatch.db")).Length;
        var rig = Start(folder: folder);
        var readings = Night().ToList();
        foreach (var batch in readings.Chunk(6))
        {
            await rig.OfferAsync(batch);
        }

        Assert.Equal(readings.Count, rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM measurement")));
        await rig.StopAsync();
        var perReading = (new FileInfo(Path.Combine(folder, "vatwatch.db")).Length - empty) / (double)readings.Count;
        TestContext.Current.SendDiagnosticMessage($"{perReading:F2} bytes a reading");
        Assert.InRange(perReading, 20, 30);
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>
    /// Ten hours, every 5 s: liquor temperature with two decimals, pH with a calibration that leaves full doubles, ORP with an offset; a poll
    /// that wanders by milliseconds, and a failed reply now and then. The two clocks differ by what passes between reading one and the other:
    /// the steering of the wall clock is in the monotonic one too (clock_gettime(2), CLOCK_MONOTONIC).
    /// </summary>
    internal static IEnumerable<Measurement> Night(int hours = 10)
    {
        var random = new Random(20310314);
        for (var second = 0; second < hours * 3600; second += 5)
        {
            foreach (var (probe, measures, raw, calibrated) in ((string, Quantity, double, Func<double, double>?)[])
                [
                    ("liquor", Quantity.Temperature, Math.Round(22 + 24 * (1 - Math.Exp(-second / 15000.0)) + random.NextDouble() * 0.06, 2), null),
                    ("glass", Quantity.Ph, Math.Round(10.02 - second * 4e-6 + random.NextDouble() * 0.02, 2), v => 7 + (v - 7) * 1.0137 - 0.021),
                    ("platinum", Quantity.Orp, Math.Round(-660 + second * 5e-4 + random.NextDouble(), 1), v => v + 6.37),
                ])
            {
                yield return One(random, second, probe, measures, raw, calibrated);
            }
        }
    }

    private static Measurement One(Random random, int second, string probe, Quantity measures, double raw, Func<double, double>? calibrated)
    {
        var at = Math.Round(second + random.NextDouble() * 0.02, 6);
        var stamp = Reading(at + random.Next(30) * 1e-6, monotonicSeconds: at).Stamp;
        if (random.Next(500) == 0)
        {
            return new(Madder, new(probe), measures, stamp, null, null, Quality.Missing, "no reply within 500 ms", null);
        }

        return new(Madder, new(probe), measures, stamp, raw, calibrated?.Invoke(raw) ?? raw, Quality.Good, null, calibrated is null ? null : 3);
    }
}
