using System.Text;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// The power goes: what a program wrote and flushed is recorded call by call, and the disk is made again as it may be at that moment, without what
/// was not flushed. Whatever had been told by then must be on it.
/// </summary>
[Trait("Campaign", "faults")]
public sealed class PowerCutTests
{
    private const string Topics = "vatwatch/test-studio/";
    private static readonly int Cuts = FaultFigures.Size(40, 250);

    /// <summary>The commit interval of 1 s, and a commit that is on its way.</summary>
    private static readonly double MostLostSeconds = FaultFigures.Size(4, 2);

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task After_a_power_cut_the_store_is_sound_and_has_all_that_was_told_and_all_readings_but_those_of_one_interval()
    {
        using var studio = new Studio();
        await FillWithoutClosingAsync(studio.Data);
        var before = Path.Combine(studio.Folder, "before");
        CopyFolder(studio.Data, before);
        var recording = Path.Combine(studio.Folder, "trace");
        await RecordNightAsync(studio, recording);

        var trace = DiskTrace.Read(recording, studio.Data);
        var told = ToldByMqtt.In(trace);
        Assert.True(told.Count(message => message.Topic.EndsWith("/notification", StringComparison.Ordinal)) > 4, "sentences were told");
        Assert.True(trace.Steps.Any(step => step.Act == DiskAct.Write && step.At == 0 && step.Path.EndsWith(".db-wal", StringComparison.Ordinal)), "the log was moved into the database and begun again");
        var disk = new CutDisk(before, studio.Data);
        var random = new Random(500);
        var places = CutPlaces(trace, random, Cuts, told[0].Place);
        var (worst, taken, unflushed) = (TimeSpan.Zero, 0, 0);
        for (var cut = 0; cut < places.Count; cut++)
        {
            for (; taken <= places[cut]; taken++)
            {
                disk.Take(trace.Steps[taken]);
            }

            unflushed += disk.Unflushed > 0 ? 1 : 0;
            var folder = Path.Combine(studio.Folder, "cut");
            disk.WriteTo(folder, cut);
            File.WriteAllBytes(Path.Combine(folder, "vatwatch.db-shm"), Noise(random, cut % 2 * 32768));
            await AssertSoundAsync(folder, $"cut {cut} at step {taken}");
            var lost = AssertHasWhatWasTold(folder, [.. told.TakeWhile(message => message.Place < taken)], trace.Steps[taken - 1].Time);
            worst = lost > worst ? lost : worst;
            Directory.Delete(folder, recursive: true);
        }

        FaultFigures.Hold("power cut, daemon", $"{Cuts} cuts", $"{places.Count} sound, nothing told lost; {unflushed} cuts met writes not flushed", "all sound, nothing told lost", unflushed > 0);

        // One commit may be on its way; under a tracer on a busy machine it takes its time.
        FaultFigures.AtMost("power cut, daemon", $"{Cuts} cuts", "readings lost of the last", worst.TotalSeconds, MostLostSeconds, "s");
    }

    [Fact]
    public async Task After_a_power_cut_a_backup_that_was_said_to_be_there_is_there_and_one_under_its_name_is_whole()
    {
        using var studio = new Studio();
        studio.WriteBenchConfig("/nowhere/tty", """{ "broker": "builtin" }""");
        var expected = await FillMonthsAsync(studio.Data);
        var copies = Directory.CreateDirectory(Path.Combine(studio.Folder, "copies")).FullName;
        var empty = Directory.CreateDirectory(Path.Combine(studio.Folder, "empty")).FullName;
        var recording = Path.Combine(studio.Folder, "trace");
        await using (var backup = VatWatchProcess.StartUnder("strace", DiskTrace.Recorder(recording), "backup", Path.Combine(copies, "night.db"), "--config", studio.Config))
        {
            Assert.Equal(0, await backup.ExitCodeAsync(Patience));
        }

        var trace = DiskTrace.Read(recording, copies);
        var said = trace.Steps.ToList().FindIndex(step => step.Act == DiskAct.Say && Encoding.UTF8.GetString(step.Bytes).Contains("copied and checked", StringComparison.Ordinal));
        Assert.InRange(said, 1, trace.Steps.Count);
        var disk = new CutDisk(empty, copies);
        for (var taken = 0; taken < said; taken++)
        {
            disk.Take(trace.Steps[taken]);
            var cut = Path.Combine(studio.Folder, "cut");
            disk.WriteTo(Directory.CreateDirectory(cut).FullName, taken == said - 1 ? 0 : taken);
            if (taken == said - 1 || (File.Exists(Path.Combine(cut, "night.db")) && taken % 4 == 0))
            {
                using var reader = StoreReader.OpenFile(Path.Combine(cut, "night.db"));
                Assert.Equal(1, reader.NewestRun);
                if (taken == said - 1)
                {
                    Assert.Empty(reader.Verify());
                    Assert.Equal(expected, reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Select(row => row.Measurement.Value!.Value));
                }
            }

            Directory.Delete(cut, recursive: true);
        }
    }

    /// <summary>A night of a minute: the liquor crosses its limit again and again, a probe falls silent, and somebody acknowledges.</summary>
    private static async Task RecordNightAsync(Studio studio, string recording)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        Night.Configure(studio, instrument, broker.Port);
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Topics + "#");
        await Night.CalmAsync(instrument);
        await using var watch = VatWatchProcess.StartUnder("strace", DiskTrace.Recorder(recording), "run", "--config", studio.Config);
        await phone.WaitForAsync(Topics + "weld-yard/measurement/liquor", limit: Patience);
        for (var round = 0; round < FaultFigures.Size(3, 12); round++)
        {
            await instrument.TellAsync("set T 50");
            await Told("unacknowledged", round);
            await MosquittoPub.SendAsync(new(broker.Port), Topics + "weld-yard/command/acknowledge", """{"alarm":"overheat","by":"Ada"}""");
            await Told("acknowledged", round);
            await instrument.TellAsync("set T 45");
            await Told("normal", round);
            await Task.Delay(FaultFigures.Size(500, 2500), TestContext.Current.CancellationToken);
        }

        await watch.StopBelowAsync(Patience);

        async Task Told(string state, int round) => await Eventually.TrueAsync(
            () => phone.Messages.Count(message => message.Topic == Topics + "weld-yard/alarm/overheat" && message.Payload.Contains($"\"state\":\"{state}\"", StringComparison.Ordinal)) > round,
            $"overheat is {state} for the {round + 1}. time", Patience);
    }

    /// <summary>Half of the cuts anywhere, half of them between the first write after a flush and the flush that ends it.</summary>
    private static List<int> CutPlaces(DiskTrace trace, Random random, int count, int from)
    {
        var flushes = Enumerable.Range(from, trace.Steps.Count - from).Where(place => trace.Steps[place].Act is DiskAct.Flush or DiskAct.Rename or DiskAct.Remove).ToList();
        return [.. Enumerable.Range(0, count).Select(cut => cut % 2 == 0
            ? random.Next(from, trace.Steps.Count)
            : Math.Clamp(flushes[random.Next(flushes.Count)] - random.Next(4), from, trace.Steps.Count - 1)).Order()];
    }

    private static async Task AssertSoundAsync(string folder, string what)
    {
        await using (var store = WatchStore.Open(folder, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance))
        {
            Assert.True(store.Health.Quarantined is null, $"{what}: {store.Health.Quarantined}");
        }

        using var reader = StoreReader.OpenFolder(folder);
        var faults = reader.Verify();
        Assert.True(faults.Count == 0, $"{what}: {string.Join(' ', faults)}");
    }

    /// <returns>How much older than the cut the oldest reading is that had been shown and is lost.</returns>
    private static TimeSpan AssertHasWhatWasTold(string folder, IReadOnlyList<ToldByMqtt> told, double cut)
    {
        using var record = new StoredRecord(folder);
        var shown = new ShownNight([.. told.Select(message => new ForeignMessage(message.Topic, 1, false, "", message.Payload))]);
        Assert.Empty(shown.ChangesMissingFrom(record));
        Assert.Empty(shown.SentencesMissingFrom(record));
        var missing = shown.MissingFrom(record);
        return missing.Count == 0 ? TimeSpan.Zero : TimeSpan.FromSeconds(cut - missing.Min(reading => reading.Milliseconds) / 1000.0);
    }

    /// <summary>A store whose log is about to be moved into the database (at 4000 pages), left as a kill leaves it.</summary>
    private static async Task FillWithoutClosingAsync(string folder)
    {
        var made = folder + "-made";
        await using (var store = WatchStore.Open(made, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance))
        {
            for (var batch = 0; new FileInfo(Path.Combine(made, "vatwatch.db-wal")).Length < 4_150_000; batch++)
            {
                Enqueue(store, DateTimeOffset.UtcNow.AddHours(-20).AddSeconds(10 * batch), 0, 10, batch);
                await store.FlushAsync(TestContext.Current.CancellationToken);
            }

            CopyFolder(made, folder);
        }

        Directory.Delete(made, recursive: true);
    }

    private static async Task<List<double>> FillMonthsAsync(string folder)
    {
        await using (var store = WatchStore.Open(folder, new StoreOptions { BufferedMeasurements = 1_000_000 }, TimeProvider.System, NullLogger<WatchStore>.Instance))
        {
            Enqueue(store, DateTimeOffset.UtcNow.AddDays(-100), 0, 4000, 0, 900);
            await store.FlushAsync(TestContext.Current.CancellationToken);
        }

        return Values(folder);
    }

    private static void Enqueue(WatchStore store, DateTimeOffset start, int from, int count, int seed, int apartSeconds = 1)
    {
        for (var number = from; number < from + count; number++)
        {
            var at = TimeSpan.FromSeconds(number * apartSeconds);
            var value = 40 + (seed + number) % 977 / 100.0;
            store.Enqueue(new Measurement(new VatId("weld-yard"), new ProbeId($"kept-{number % 4}"), Quantity.Temperature, new Stamp(start + at, at, true), value, value, Quality.Good, null, null));
        }
    }

    private static List<double> Values(string folder)
    {
        using var reader = StoreReader.OpenFolder(folder);
        return [.. reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Select(row => row.Measurement.Value!.Value)];
    }

    private static void CopyFolder(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var name in (string[])["vatwatch.db", "vatwatch.db-wal"])
        {
            if (File.Exists(Path.Combine(from, name)))
            {
                using var source = new FileStream(Path.Combine(from, name), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
                using var target = File.Create(Path.Combine(to, name));
                source.CopyTo(target);
            }
        }
    }

    private static byte[] Noise(Random random, int count)
    {
        var bytes = new byte[count];
        random.NextBytes(bytes);
        return bytes;
    }
}
