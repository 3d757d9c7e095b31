using Microsoft.Extensions.Time.Testing;
using VatWatch.Store;
using VatWatch.Store.Disk;
using VatWatch.Testing;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

/// <summary>Copies of a store, each damaged in another way: every one must start, take readings and end, whatever is lost.</summary>
public sealed class DamagedCopiesTests
{
    private int _unread;

    [Fact]
    [Trait("Campaign", "faults")]
    public async Task Every_damaged_copy_starts_and_takes_readings()
    {
        var copies = FaultFigures.Size(60, 600);
        var (database, log) = await MakeAsync();
        var random = new Random(1972);
        var setAside = 0;
        for (var copy = 0; copy < copies; copy++)
        {
            setAside += await StartsAsync(Spoil(random, database, copy), copy % 2 == 0 ? log : Spoil(random, log, copy / 2), copy) ? 1 : 0;
        }

        FaultFigures.AtMost("damaged files, store", $"{copies} copies", $"{copies} starts, {setAside} set aside; written to but not read", _unread, Math.Max(1, copies / 50));
        Assert.InRange(setAside, copies / 10, copies);
    }

    private async Task<bool> StartsAsync(byte[] database, byte[] log, int copy)
    {
        var folder = NewFolder();
        File.WriteAllBytes(Path.Combine(folder, "vatwatch.db"), database);
        File.WriteAllBytes(Path.Combine(folder, "vatwatch.db-wal"), log);
        var time = new FakeTimeProvider(Dusk);
        StoreRig rig;
        try
        {
            rig = Start(io: time, folder: folder);
        }
        catch (Exception caught)
        {
            throw new InvalidOperationException($"copy {copy} did not start: {caught.Message}", caught);
        }

        rig.Store.Enqueue(Reading(1_000_000, 12.5));
        await EventuallyAsync(() => rig.Store.Health is { Ok: true, Buffered: 0 }, () => time.Advance(TimeSpan.FromSeconds(11)));
        var wasSetAside = rig.Store.Health.Quarantined is not null;
        try
        {
            Assert.Contains(rig.Read(reader => reader.Rows(Dusk.AddSeconds(999_999), Dusk.AddSeconds(1_000_002)).ToList()), row => row.Measurement.Value == 12.5);
        }
        catch (StoreUnavailableException caught)
        {
            // Damage that neither the check at the start nor the writing met; it is said, and 'verify' finds it.
            Assert.Contains("damaged", caught.Message, StringComparison.Ordinal);
            Assert.False(wasSetAside);
            Interlocked.Increment(ref _unread);
        }

        await rig.StopAsync();
        Directory.Delete(folder, recursive: true);
        return wasSetAside;
    }

    /// <summary>A store with readings in its database and, as after a power cut, some only in its log.</summary>
    private static async Task<(byte[] Database, byte[] Log)> MakeAsync()
    {
        await using var rig = Start();
        await rig.OfferAsync(Enumerable.Range(0, 2000).Select(n => Reading(n * 5, n % 50 == 0 ? null : n / 8.0, $"probe-{n % 4}")));
        await rig.WriteAsync(t => CalibrationTable.Append(t, new("probe-0"), Dusk, "{}"));
        await rig.SqlAsync("UPDATE run SET tried = 1");
        using (var sql = new StoreFile(rig.Folder).OpenBeside())
        {
            sql.Execute("PRAGMA wal_checkpoint(TRUNCATE)");
        }

        await rig.OfferAsync(Enumerable.Range(2000, 500).Select(n => Reading(n * 5, n / 8.0, $"probe-{n % 4}")));
        var log = Path.Combine(rig.Folder, "vatwatch.db-wal");
        Assert.True(new FileInfo(log).Length > 1000);
        return (Shared(Path.Combine(rig.Folder, "vatwatch.db")), Shared(log));
    }

    private static byte[] Shared(string path)
    {
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    private static byte[] Spoil(Random random, byte[] sound, int way)
    {
        byte[] bytes = [.. sound];
        var at = random.Next(bytes.Length);
        switch (way % 6)
        {
            case 0: // bits
                for (var flip = 0; flip < 20; flip++)
                {
                    bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
                }

                break;
            case 1: // a stretch of noise
                random.NextBytes(bytes.AsSpan(at, Math.Min(random.Next(1, 8192), bytes.Length - at)));
                break;
            case 2: // a stretch never written
                bytes.AsSpan(at, Math.Min(random.Next(1, 8192), bytes.Length - at)).Clear();
                break;
            case 3: // cut short
                bytes = bytes[..at];
                break;
            case 4: // a page in another's place
                var (from, to) = (random.Next(bytes.Length / 1024) * 1024, random.Next(bytes.Length / 1024) * 1024);
                bytes.AsSpan(from, 1024).CopyTo(bytes.AsSpan(to));
                break;
            default: // the head
                bytes[random.Next(Math.Min(100, bytes.Length))] ^= (byte)random.Next(1, 256);
                break;
        }

        return bytes;
    }
}
