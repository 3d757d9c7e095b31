using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Store.Archive;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Archive;

public sealed class ArchiveFileTests : IDisposable
{
    private readonly string _folder = NewFolder();

    [Fact]
    public async Task Every_bit_of_a_reading_comes_back()
    {
        double?[] numbers = [null, 0.0, -0.0, double.NaN, double.PositiveInfinity, double.Epsilon, 43.62, 0.1 + 0.2, -640.5];
        var rows = new List<StoredMeasurement>();
        foreach (var (raw, value) in numbers.SelectMany(raw => numbers.Select(value => (raw, value))))
        {
            var n = rows.Count;
            var reading = Reading(n / 7, null, n % 2 == 0 ? "liquor" : "platinum", measures: (Quantity)(n % 6), monotonicSeconds: n * 3) with
            {
                Raw = raw,
                Value = value,
                Quality = (Quality)(n % 4),
                Reason = n % 4 == 0 ? null : $"reason {n % 5}",
                Calibration = n % 3 == 0 ? null : n,
            };
            rows.Add(new(MeasurementKey.First(MeasurementKey.Micros(reading.Stamp.Utc)) + n % 7, n, 0, reading));
        }

        var month = ArchiveMonth.Of(Madder, Dusk);
        var path = Path.Combine(_folder, month.FileName);
        Assert.Equal(rows.Count, await ArchiveWriter.WriteAsync(path, month, rows, TestContext.Current.CancellationToken));

        using var file = ArchiveFile.Open(path, month);
        var read = file.Read(long.MinValue, long.MaxValue, (_, _) => 0).ToList();
        Assert.Equal(rows, read);
        Assert.Equal(rows.Select(row => Bits(row.Measurement)), read.Select(row => Bits(row.Measurement)));
        file.Verify();
    }

    [Fact]
    public async Task A_noisy_month_takes_at_most_4_bytes_a_reading()
    {
        var month = ArchiveMonth.Of(Madder, Dusk);
        var night = Night(100);
        var path = Path.Combine(_folder, month.FileName);
        var rows = await ArchiveWriter.WriteAsync(path, month, night, TestContext.Current.CancellationToken);

        var perReading = new FileInfo(path).Length / (double)rows;
        TestContext.Current.SendDiagnosticMessage($"{perReading:F2} bytes a reading of {rows}");
        Assert.InRange(perReading, 2, 4);
    }

    [Fact]
    public async Task A_file_that_was_altered_anywhere_is_refused_or_found_out()
    {
        var month = ArchiveMonth.Of(Madder, Dusk);
        var path = Path.Combine(_folder, month.FileName);
        await ArchiveWriter.WriteAsync(path, month, Night(1), TestContext.Current.CancellationToken);
        var sound = File.ReadAllBytes(path);
        var random = new Random(11);
        var found = 0;
        const int Copies = 120;
        for (var copy = 0; copy < Copies; copy++)
        {
            byte[] bytes = copy % 10 == 0 ? sound[..random.Next(sound.Length)] : [.. sound];
            if (copy % 10 != 0)
            {
                bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
            }

            File.WriteAllBytes(path, bytes);
            try
            {
                using var file = ArchiveFile.Open(path, month);
                file.Verify();
            }
            catch (Exception caught) when (caught is InvalidDataException or IOException)
            {
                found++;
            }
        }

        // A bit of the file's own notes, such as a statistic nobody uses, may change without any reading changing.
        Assert.InRange(found, Copies * 8 / 10, Copies);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>The noisy night of the size test, kept as the store keeps it: in whole microseconds.</summary>
    private static IEnumerable<StoredMeasurement> Night(int hours) => StoreSizeTests.Night(hours).Select(reading =>
    {
        var micros = MeasurementKey.Micros(reading.Stamp.Utc);
        var monotonic = TimeSpan.FromMicroseconds(MeasurementKey.Micros(reading.Stamp.Monotonic));
        return new StoredMeasurement(MeasurementKey.First(micros), 1, 0, reading with { Stamp = new(MeasurementKey.UtcOfMicros(micros), monotonic, true) });
    }).OrderBy(row => row.Key);

    private static (long?, long?) Bits(Measurement m) => (Bits(m.Raw), Bits(m.Value));

    private static long? Bits(double? number) => number is { } n ? BitConverter.DoubleToInt64Bits(n) : null;
}
