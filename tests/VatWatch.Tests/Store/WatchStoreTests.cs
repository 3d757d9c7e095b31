using System.Security.Cryptography;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store;

[Trait("Starts", "processes")]
public sealed class WatchStoreTests
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_first_reading_is_on_disk_at_once_and_the_next_one_commit_interval_later()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        Assert.True(rig.Store.Enqueue(Reading(1)));
        await EventuallyAsync(() => rig.Store.Health.Buffered == 0);
        Assert.Equal(time.Start, time.GetUtcNow());

        Assert.True(rig.Store.Enqueue(Reading(2)));
        Assert.Equal([Reading(1)], rig.All());
        await EventuallyAsync(() => rig.Store.Health.Buffered == 0, () => time.Advance(TimeSpan.FromSeconds(1)));

        Assert.Equal([Reading(1), Reading(2)], rig.All());
        Assert.InRange((time.GetUtcNow() - time.Start).TotalSeconds, 10, 60);
    }

    [Fact]
    public async Task An_urgent_write_waits_for_no_interval_and_leaves_the_readings_to_theirs()
    {
        await using var rig = Start(io: new FakeTimeProvider());

        // Until the writer stage has begun, a write commits by itself and takes everything along.
        var offered = 0;
        do
        {
            rig.Store.Enqueue(Reading(++offered));
            await rig.WriteAsync(transaction => CalibrationTable.Append(transaction, new("alkali"), Dusk, "{}"));
        }
        while (rig.Store.Health.Buffered == 0 && offered < 1000);

        var row = await rig.WriteAsync(transaction => CalibrationTable.Append(transaction, new("liquor"), Dusk, "{}"));

        Assert.Contains(new StoredCalibration(row, new("liquor"), Dusk, "{}"), rig.Read(CalibrationTable.Newest));
        Assert.Equal(1, rig.Store.Health.Buffered);
        Assert.True(rig.Store.Health.Ok);
        Assert.NotNull(rig.Store.Health.LastCommit);

        await rig.Store.FlushAsync(Cancel);
        Assert.Equal(offered, rig.All().Count);
    }

    [Fact]
    public async Task Urgent_writes_one_after_the_other_do_not_put_the_readings_off()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        rig.Store.Enqueue(Reading(1));
        for (var second = 0; second < 11; second++)
        {
            time.Advance(TimeSpan.FromSeconds(1));
            await rig.WriteAsync(transaction => CalibrationTable.Append(transaction, new("liquor"), Dusk, "{}"));
        }

        await EventuallyAsync(() => rig.Store.Health.Buffered == 0);
    }

    [Fact]
    public async Task While_nothing_waits_the_file_is_looked_for_and_nothing_is_written()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        rig.Store.Enqueue(Reading(1));
        await EventuallyAsync(() => rig.Store.Health.Buffered == 0);
        var (committed, written) = (rig.Store.Health.LastCommit, Written(rig));
        await EventuallyAsync(() => rig.Store.Health.LastCommit > committed, () => time.Advance(TimeSpan.FromSeconds(1)));
        Assert.Equal(written, Written(rig));

        static string Written(StoreRig rig)
        {
            using var log = new FileStream(Path.Combine(rig.Folder, "vatwatch.db-wal"), FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return Convert.ToHexString(SHA256.HashData(log));
        }
    }

    [Fact]
    public async Task The_mistake_of_one_write_undoes_that_write_only()
    {
        await using var rig = Start();
        var good = rig.WriteAsync(transaction => CalibrationTable.Append(transaction, new("one"), Dusk, "{}"));
        var bad = rig.WriteAsync<long>(transaction =>
        {
            CalibrationTable.Append(transaction, new("two"), Dusk, "{}");
            throw new ArithmeticException("a mistake");
        });
        var wrongSql = rig.SqlAsync("INSERT INTO calibration (probe) VALUES ('three')");
        await good;
        await Assert.ThrowsAsync<ArithmeticException>(() => bad);
        await Assert.ThrowsAsync<Microsoft.Data.Sqlite.SqliteException>(() => wrongSql);

        Assert.Equal("one", Assert.Single(rig.Read(CalibrationTable.Newest)).Probe.Value);
        Assert.True(rig.Store.Health.Ok);
    }

    [Fact]
    public async Task A_transaction_cannot_be_used_after_its_work_has_returned()
    {
        await using var rig = Start();
        var kept = await rig.WriteAsync(transaction => transaction);
        Assert.Throws<InvalidOperationException>(() => CalibrationTable.Append(kept, new("liquor"), Dusk, "{}"));
    }

    [Fact]
    public async Task Closing_commits_everything_and_takes_no_more()
    {
        var folder = NewFolder();
        var rig = Start(io: new FakeTimeProvider(), folder: folder);
        rig.Store.Enqueue(Reading(1));
        await rig.StopAsync();

        Assert.False(rig.Store.Enqueue(Reading(2)));
        var refused = await Assert.ThrowsAsync<StoreUnavailableException>(() => rig.Store.FlushAsync(Cancel));
        Assert.Contains("closed", refused.Message, StringComparison.Ordinal);
        Assert.Equal(["vatwatch.db", "vatwatch.lock"], Directory.GetFiles(folder).Select(file => Path.GetFileName(file)).Order());
        using (var reader = StoreReader.OpenFolder(folder))
        {
            Assert.Equal([Reading(1)], reader.Measurements(Madder, Dusk, Dusk.AddDays(1)));
            Assert.NotNull(reader.Sql.Whole("SELECT ended FROM run"));
        }
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Without_a_writer_stage_a_write_commits_by_itself()
    {
        var folder = NewFolder();
        await using (var store = WatchStore.Open(folder, new(), new FakeTimeProvider(), new RecordingLogger()))
        {
            store.Enqueue(Reading(1));
            var writes = Enumerable.Range(0, 50).Select(n => store.WriteAsync(t => CalibrationTable.Append(t, new($"probe-{n}"), Dusk, "{}"), Cancel));
            await Task.WhenAll(writes);
            using var reader = store.OpenReader();
            Assert.Equal(50, CalibrationTable.Newest(reader).Count);
            Assert.Equal([Reading(1)], reader.Measurements(Madder, Dusk, Dusk.AddDays(1)));
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Writes_that_come_while_the_stage_stops_are_all_answered()
    {
        var folder = NewFolder();
        await using (var store = WatchStore.Open(folder, new(), TimeProvider.System, new RecordingLogger()))
        {
            using var stop = new CancellationTokenSource();
            var stage = store.RunAsync(stop.Token);
            var writes = Enumerable.Range(0, 200).Select(async n =>
            {
                await Task.Yield();
                if (n == 100)
                {
                    await stop.CancelAsync();
                }

                return await store.WriteAsync(t => CalibrationTable.Append(t, new("liquor"), Dusk, "{}"), Cancel);
            }).ToList();
            Assert.Equal(200, (await Task.WhenAll(writes)).Distinct().Count());
            await stage;
        }

        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_disk_that_does_not_answer_counts_as_failing_before_it_answers()
    {
        var time = new FakeTimeProvider();
        await using var rig = Start(io: time);
        using var release = new ManualResetEventSlim();
        using var begun = new ManualResetEventSlim();
        var write = rig.WriteAsync(_ =>
        {
            begun.Set();
            return release.Wait(TimeSpan.FromSeconds(20), Cancel);
        });
        Assert.True(begun.Wait(TimeSpan.FromSeconds(20), Cancel));
        Assert.True(rig.Store.Health.Ok);

        time.Advance(TimeSpan.FromSeconds(11));
        Assert.False(rig.Store.Health.Ok);
        Assert.Contains("not answered", rig.Store.Health.Reason, StringComparison.Ordinal);

        // The writer may begin before the waiter has set its own limit; then that limit is still ahead.
        await EventuallyAsync(() =>
        {
            time.Advance(TimeSpan.FromSeconds(1));
            return write.IsCompleted;
        });
        var refused = await Assert.ThrowsAsync<StoreUnavailableException>(() => write);
        Assert.Contains("may still get there", refused.Message, StringComparison.Ordinal);

        release.Set();
        await EventuallyAsync(() => rig.Store.Health.Ok);
    }

    [Fact]
    public async Task A_second_opener_is_told_the_folder_and_who_has_it()
    {
        await using var rig = Start();
        var refused = Assert.Throws<StoreInUseException>(() => WatchStore.Open(rig.Folder, new(), TimeProvider.System, rig.Log));
        Assert.Contains($"'{rig.Folder}'", refused.Message, StringComparison.Ordinal);
        Assert.Contains($"process {Environment.ProcessId} ", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_held_by_another_process_is_free_as_soon_as_that_is_killed()
    {
        var folder = NewFolder();
        using var other = new StoreHost("hold", folder);
        Assert.Equal("held", other.Next());
        var refused = Assert.Throws<StoreInUseException>(() => WatchStore.Open(folder, new(), TimeProvider.System, new RecordingLogger()));
        Assert.Contains($"process {other.Pid} ", refused.Message, StringComparison.Ordinal);

        other.Kill();
        var rig = Start(folder: folder);
        Assert.Equal(2, rig.Store.Run);
        await rig.StopAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task More_than_a_quarter_of_the_buffer_does_not_wait_for_the_interval()
    {
        await using var rig = Start(new() { BufferedMeasurements = 400 }, new FakeTimeProvider());
        Assert.True(rig.Store.Enqueue(Reading(0)));
        await EventuallyAsync(() => rig.Store.Health.Buffered == 0);
        foreach (var number in Enumerable.Range(1, 100))
        {
            Assert.True(rig.Store.Enqueue(Reading(number)));
        }

        await EventuallyAsync(() => rig.Store.Health.Buffered == 0);
        Assert.Equal(101, rig.All().Count);
    }
}
