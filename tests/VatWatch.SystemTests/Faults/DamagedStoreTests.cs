using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>Damaged stores under the built binary: it starts, says what it did, takes readings and ends. The store itself takes more in its own tests.</summary>
[Trait("Campaign", "faults")]
public sealed class DamagedStoreTests
{
    private static readonly int Copies = FaultFigures.Size(12, 60);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task The_daemon_starts_on_a_damaged_store_says_so_and_watches()
    {
        var (database, log) = await MakeAsync();
        var random = new Random(12);
        var (setAside, number) = (0, 0);
        var spoilt = Enumerable.Range(0, Copies).Select(copy => (Copy: copy, Database: copy % 3 == 2 ? database : Spoil(random, database, copy), Log: copy % 3 > 0 ? Spoil(random, log, copy / 3) : log)).ToList();
        await Parallel.ForEachAsync(spoilt, new ParallelOptions { MaxDegreeOfParallelism = 3, CancellationToken = TestContext.Current.CancellationToken }, async (one, _) =>
        {
            Interlocked.Add(ref setAside, await WatchesAsync(one.Database, one.Log, one.Copy) ? 1 : 0);
            Interlocked.Increment(ref number);
        });
        FaultFigures.Hold("damaged files, daemon", $"{Copies} stores", $"{number} started, watched and ended, {setAside} set aside", "all start, watch and end", number == Copies && setAside > 0);
    }

    private static async Task<bool> WatchesAsync(byte[] database, byte[] log, int copy)
    {
        using var studio = new Studio();
        studio.WriteConfig(
            """ "demo": { "kind": "simulation", "speed": 60, "start": "45 °C", "ambient": "18 °C", "heater": "1500 W" } """,
            Studio.Vat("weld-yard", """{ "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "5 s" }"""));
        Directory.CreateDirectory(studio.Data);
        File.WriteAllBytes(Path.Combine(studio.Data, "vatwatch.db"), database);
        File.WriteAllBytes(Path.Combine(studio.Data, "vatwatch.db-wal"), log);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching", StringComparison.Ordinal), $"copy {copy} watches", Patience);
        Assert.False(watch.HasExited, $"copy {copy}: {watch.Output}{watch.Errors}");
        await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        var code = await watch.StopAsync(Patience);
        Assert.True(code == 0, $"copy {copy} ended with {code}: {watch.Output}{watch.Errors}");
        Assert.DoesNotContain("   at ", watch.Output + watch.Errors, StringComparison.Ordinal);
        var wasSetAside = Directory.EnumerateFiles(studio.Data, "vatwatch-damaged-*.db").Any();
        Assert.Equal(wasSetAside, watch.Output.Contains("set aside", StringComparison.Ordinal));
        using var reader = StoreReader.OpenFolder(studio.Data);
        if (wasSetAside)
        {
            Assert.Empty(reader.Verify());
            Assert.NotEmpty(reader.Latest());
        }

        return wasSetAside;
    }

    /// <summary>A store as a kill leaves it: much in its database, some in its log.</summary>
    private static async Task<(byte[] Database, byte[] Log)> MakeAsync()
    {
        var folder = Directory.CreateTempSubdirectory("vatwatch-damaged-").FullName;
        (byte[], byte[]) made;
        for (var run = 0; ; run++)
        {
            await using var store = WatchStore.Open(folder, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
            for (var number = 0; number < 3000; number++)
            {
                var at = TimeSpan.FromSeconds(number);
                store.Enqueue(new Measurement(
                    new VatId("weld-yard"), new ProbeId("liquor"), Quantity.Temperature, new Stamp(DateTimeOffset.UtcNow.AddDays(run - 2) + at, at, true), 40 + number / 100.0, 40 + number / 100.0, Quality.Good, null, null));
            }

            await store.FlushAsync(TestContext.Current.CancellationToken);
            if (run == 1)
            {
                made = (Shared(Path.Combine(folder, "vatwatch.db")), Shared(Path.Combine(folder, "vatwatch.db-wal")));
                break;
            }
        }

        Directory.Delete(folder, recursive: true);
        return made;
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
        var at = random.Next(bytes.Length / 2);
        switch (way % 4)
        {
            case 0: // a stretch of noise
                random.NextBytes(bytes.AsSpan(at, 4096));
                break;
            case 1: // a stretch never written
                bytes.AsSpan(at, 8192).Clear();
                break;
            case 2: // cut short
                bytes = bytes[..at];
                break;
            default: // the head
                bytes[random.Next(100)] ^= (byte)random.Next(1, 256);
                break;
        }

        return bytes;
    }
}
