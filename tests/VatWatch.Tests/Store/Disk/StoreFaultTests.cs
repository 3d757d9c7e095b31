using System.Diagnostics;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Disk;

[Trait("Starts", "processes")]
public sealed class StoreFaultTests
{
    [Fact]
    public async Task A_full_database_keeps_readings_in_memory_refuses_writes_and_resumes_by_itself()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        await rig.OfferAsync(Reading(0));
        await rig.SqlAsync("PRAGMA max_page_count = 1");

        await KeepsThroughAFullDiskAsync(rig, time, () => rig.SqlAsync("PRAGMA max_page_count = 1000000"));
    }

    [Fact]
    public async Task A_full_disk_keeps_readings_in_memory_refuses_writes_and_resumes_by_itself()
    {
        var time = new FakeTimeProvider();
        using var disk = SmallDisk.TryMake();
        if (disk is null)
        {
            // Mounting is not ours here; the store's own limit of pages is the same fault to SQLite.
            await A_full_database_keeps_readings_in_memory_refuses_writes_and_resumes_by_itself();
            return;
        }

        var rig = Start(io: time, folder: disk.Folder);
        await rig.OfferAsync(Reading(0));
        disk.Fill();

        await KeepsThroughAFullDiskAsync(rig, time, () =>
        {
            disk.Free();
            return Task.CompletedTask;
        });
        await rig.StopAsync();
    }

    private static async Task KeepsThroughAFullDiskAsync(StoreRig rig, FakeTimeProvider time, Func<Task> makeRoom)
    {
        var readings = Enumerable.Range(1, 5000).Select(number => Reading(number, 40 + number / 7.0)).ToList();
        readings.ForEach(reading => Assert.True(rig.Store.Enqueue(reading)));
        var refused = await Assert.ThrowsAsync<StoreUnavailableException>(() => rig.WriteAsync(t => CalibrationTable.Append(t, new("liquor"), Dusk, new string('x', 100_000))));
        Assert.Contains("full", refused.Message, StringComparison.Ordinal);
        Assert.Contains(rig.Folder, refused.Message, StringComparison.Ordinal);
        var health = rig.Store.Health;
        Assert.False(health.Ok);
        Assert.Contains("full", health.Reason, StringComparison.Ordinal);
        Assert.Equal(readings.Count, health.Buffered);

        await makeRoom();
        await EventuallyAsync(() => rig.Store.Health is { Ok: true, Buffered: 0 }, () => time.Advance(TimeSpan.FromSeconds(1)));

        Assert.Equal([Reading(0), .. readings], rig.All());
        Assert.Empty(rig.Read(CalibrationTable.Newest));
        Assert.Equal(0, rig.Store.Health.Dropped);
        Assert.Single(rig.Log.Lines, line => line.Level == LogLevel.Error);
    }

    [Fact]
    public async Task A_lock_of_another_process_delays_readings_and_loses_none()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        using var other = new StoreHost("lock", Path.Combine(rig.Folder, "vatwatch.db"));
        Assert.Equal("locked", other.Next());
        rig.Store.Enqueue(Reading(1));

        var refused = await Assert.ThrowsAsync<StoreUnavailableException>(() => rig.Store.FlushAsync(TestContext.Current.CancellationToken));
        Assert.Contains("another program holds the database locked", refused.Message, StringComparison.Ordinal);
        Assert.Equal(1, rig.Store.Health.Buffered);
        Assert.Empty(rig.All());

        other.Kill();
        await EventuallyAsync(() => rig.Store.Health is { Ok: true, Buffered: 0 }, () => time.Advance(TimeSpan.FromSeconds(1)));
        Assert.Equal([Reading(1)], rig.All());
    }

    [Fact]
    public void A_folder_that_may_not_be_written_is_refused_in_a_sentence()
    {
        // The kernel lets nobody, not even root, make a file here.
        var refused = Assert.Throws<StoreUnavailableException>(() => WatchStore.Open("/sys/kernel", new(), TimeProvider.System, new RecordingLogger()));
        Assert.Contains("'/sys/kernel'", refused.Message, StringComparison.Ordinal);
        Assert.EndsWith("wanted a folder on a disk.", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Past_its_bound_the_buffer_drops_the_oldest_and_counts()
    {
        await using var rig = Start(new() { BufferedMeasurements = 10 }, new FakeTimeProvider());
        await rig.SqlAsync("PRAGMA max_page_count = 1");
        await Assert.ThrowsAsync<StoreUnavailableException>(() => rig.WriteAsync(t => CalibrationTable.Append(t, new("liquor"), Dusk, new string('x', 100_000))));
        var kept = Enumerable.Range(0, 25).Select(number => rig.Store.Enqueue(Reading(number))).Count(kept => kept);

        Assert.Equal(10, kept);
        Assert.Equal(10, rig.Store.Health.Buffered);
        Assert.Equal(15, rig.Store.Health.Dropped);
        Assert.Single(rig.Log.Lines, line => line.Sentence.Contains("dropped and counted", StringComparison.Ordinal));
        await rig.SqlAsync("PRAGMA max_page_count = 1000000");
        Assert.Equal(Enumerable.Range(15, 10).Select(number => Reading(number)), rig.All());
    }

    [Theory]
    [InlineData(1024, 4096)] // the pages of the first tables
    [InlineData(20, 80)] // the header behind its magic
    [InlineData(0, 100)] // a head of zeros
    public async Task A_damaged_database_is_set_aside_with_the_date_and_a_new_one_begun(int from, int length)
    {
        var folder = NewFolder();
        var first = Start(folder: folder);
        await first.OfferAsync(Reading(1));
        await first.StopAsync();
        var file = Path.Combine(folder, "vatwatch.db");
        var bytes = File.ReadAllBytes(file);
        Array.Clear(bytes, from, length);
        File.WriteAllBytes(file, bytes);

        var rig = Start(io: new FakeTimeProvider(Dusk), folder: folder);
        await rig.OfferAsync(Reading(2));

        Assert.Equal([Reading(2)], rig.All());
        Assert.Equal(bytes, File.ReadAllBytes(Path.Combine(folder, "vatwatch-damaged-20310314T180000Z.db")));
        Assert.Contains("vatwatch-damaged-20310314T180000Z.db", rig.Store.Health.Quarantined, StringComparison.Ordinal);
        Assert.Contains(rig.Log.Lines, line => line.Level == LogLevel.Error && line.Sentence == rig.Store.Health.Quarantined);
        await rig.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("removed")]
    [InlineData("moved away with its folder")]
    [InlineData("another in its place")]
    [InlineData("emptied")]
    public async Task A_database_that_goes_while_it_is_written_to_is_told_and_what_comes_later_is_kept(string how)
    {
        var (folder, other) = (NewFolder(), NewFolder());
        var time = new FakeTimeProvider(Dusk);
        await using (var another = Start(folder: other))
        {
            await another.OfferAsync(Reading(1));
        }

        var rig = Start(io: time, folder: folder);
        await rig.OfferAsync(Reading(1));
        Assert.Null(rig.Store.Health.Quarantined);
        var file = Path.Combine(folder, "vatwatch.db");
        switch (how)
        {
            case "removed":
                Array.ForEach(Directory.GetFiles(folder, "vatwatch.db*"), File.Delete);
                break;
            case "moved away with its folder":
                Directory.Move(folder, folder + ".away");
                break;
            case "another in its place":
                File.Move(Path.Combine(other, "vatwatch.db"), file, overwrite: true);
                break;
            default:
                using (var opened = new FileStream(file, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
                {
                    opened.SetLength(0);
                }

                break;
        }

        rig.Store.Enqueue(Reading(1000));
        await EventuallyAsync(() => rig.Log.Lines.Any(line => line.Level == LogLevel.Error), () => time.Advance(TimeSpan.FromSeconds(6)));
        if (!Directory.Exists(folder))
        {
            Directory.Move(folder + ".away", folder);
        }

        await EventuallyAsync(() => rig.Store.Health is { Ok: true, Buffered: 0 }, () => time.Advance(TimeSpan.FromSeconds(6)));
        Assert.Contains(Reading(1000), rig.All());

        // All of a small store is still in its log, from which an emptied file is filled again.
        Assert.Equal(how is "emptied" or "moved away with its folder", rig.Store.Health.Quarantined is null);
        await rig.StopAsync();
        using (var reader = StoreReader.OpenFolder(folder))
        {
            Assert.Empty(reader.Verify());
        }

        Directory.Delete(folder, recursive: true);
        Directory.Delete(other, recursive: true);
    }

    [Fact]
    public async Task A_schema_that_is_spoilt_while_it_is_written_to_is_set_aside()
    {
        var (folder, time) = (NewFolder(), new FakeTimeProvider(Dusk));
        var rig = Start(io: time, folder: folder);
        await rig.OfferAsync(Reading(1));
        await rig.StopAsync();
        rig = Start(io: time, folder: folder);
        await rig.OfferAsync(Reading(2));
        using (var file = new FileStream(Path.Combine(folder, "vatwatch.db"), FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite))
        {
            var bytes = new byte[file.Length];
            file.ReadExactly(bytes);
            file.Position = bytes.AsSpan().IndexOf("CREATE TABLE outbox"u8);
            file.Write("CREATE TXBLE outbox"u8);
        }

        rig.Store.Enqueue(Reading(1000));
        await EventuallyAsync(() => rig.Store.Health is { Ok: true, Buffered: 0, Quarantined: not null }, () => time.Advance(TimeSpan.FromSeconds(6)));
        Assert.Contains(Reading(1000), rig.All());
        await rig.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_database_that_is_gone_or_empty_where_a_store_had_been_is_told(bool isGone)
    {
        var folder = NewFolder();
        var first = Start(folder: folder);
        await first.OfferAsync(Reading(1));
        Assert.Null(first.Store.Health.Quarantined);
        await first.StopAsync();
        var file = Path.Combine(folder, "vatwatch.db");
        if (isGone)
        {
            File.Delete(file);
        }
        else
        {
            File.WriteAllBytes(file, []);
        }

        var looked = Assert.Throws<StoreUnavailableException>(() => StoreReader.OpenFolder(folder));
        var rig = Start(folder: folder);
        await rig.OfferAsync(Reading(2));

        Assert.Contains(isGone ? "is gone, where a store had been" : "is empty, where a store had been", looked.Message, StringComparison.Ordinal);
        Assert.Contains("empty or gone, where a store had been", rig.Store.Health.Quarantined, StringComparison.Ordinal);
        Assert.Contains(rig.Log.Lines, line => line.Level == LogLevel.Error && line.Sentence == rig.Store.Health.Quarantined);
        Assert.Equal([Reading(2)], rig.All());
        await rig.StopAsync();
        var again = Start(folder: folder);
        Assert.Null(again.Store.Health.Quarantined);
        await again.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Damage_met_while_running_is_set_aside_and_neither_waiting_readings_nor_calibrations_are_lost()
    {
        var time = new FakeTimeProvider(Dusk);
        await using var rig = Start(io: time);
        await rig.OfferAsync(Reading(1));
        await rig.WriteAsync(t => CalibrationTable.Append(t, new("liquor"), Dusk, "{}"));
        using (var connection = new SqliteConnection($"Data Source={Path.Combine(rig.Folder, "vatwatch.db")};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA writable_schema = 1; UPDATE sqlite_schema SET rootpage = 999999 WHERE name = 'measurement'; PRAGMA schema_version = 77";
            command.ExecuteNonQuery();
        }

        rig.Store.Enqueue(Reading(3000));

        await EventuallyAsync(() => rig.Store.Health is { Buffered: 0, Quarantined: not null, Ok: true }, () => time.Advance(TimeSpan.FromSeconds(1)));
        Assert.Equal([Reading(3000)], rig.All());
        Assert.Equal("{}", Assert.Single(rig.Read(CalibrationTable.Newest)).Json);
        Assert.Contains("; runs, calibrations, alarms, sentences to be told, sessions, what was learned of the heat, plans, who was told were carried over.", rig.Store.Health.Quarantined, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_of_another_kind_is_refused_and_left_as_it_is()
    {
        var folder = NewFolder();
        var file = Path.Combine(folder, "vatwatch.db");
        File.WriteAllText(file, "recipes: weld over indigo, twice");

        var refused = Assert.Throws<StoreUnavailableException>(() => WatchStore.Open(folder, new(), TimeProvider.System, new RecordingLogger()));

        Assert.Contains("not a database", refused.Message, StringComparison.Ordinal);
        Assert.Equal("recipes: weld over indigo, twice", File.ReadAllText(file));
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("CREATE TABLE recipe (id INTEGER)", "another program")]
    [InlineData("PRAGMA application_id = 1", "another program")]
    [InlineData("PRAGMA application_id = 1449227351; PRAGMA user_version = 9999", "version 9999")]
    public void A_database_that_is_not_ours_or_newer_is_refused_and_left_as_it_is(string sql, string because)
    {
        var folder = NewFolder();
        var file = Path.Combine(folder, "vatwatch.db");
        using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = $"{sql}; PRAGMA journal_mode = DELETE";
            command.ExecuteNonQuery();
        }

        var before = File.ReadAllBytes(file);
        var refused = Assert.Throws<StoreUnavailableException>(() => WatchStore.Open(folder, new(), TimeProvider.System, new RecordingLogger()));
        Assert.Contains(because, refused.Message, StringComparison.Ordinal);
        Assert.Throws<StoreUnavailableException>(() => StoreReader.OpenFolder(folder));
        Assert.Equal(before, File.ReadAllBytes(file));
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>A disk of 2 MiB in memory, where the kernel lets us mount one.</summary>
    private sealed class SmallDisk(string folder) : IDisposable
    {
        public string Folder => folder;

        public static SmallDisk? TryMake()
        {
            var folder = NewFolder();
            if (Run("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", folder))
            {
                return new(folder);
            }

            Directory.Delete(folder);
            return null;
        }

        public void Fill()
        {
            using var ballast = new FileStream(Path.Combine(Folder, "ballast"), FileMode.Create);
            try
            {
                for (var block = new byte[4096]; ;)
                {
                    ballast.Write(block);
                    ballast.Flush();
                }
            }
            catch (IOException)
            {
                // Full: that was the aim.
            }
        }

        public void Free() => File.Delete(Path.Combine(Folder, "ballast"));

        public void Dispose()
        {
            Run("umount", "-l", Folder);
            Directory.Delete(Folder);
        }

        private static bool Run(string program, params string[] arguments)
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            process.WaitForExit();
            return process.ExitCode == 0;
        }
    }
}
