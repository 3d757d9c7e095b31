using VatWatch.Notifications;
using VatWatch.Pipeline;
using VatWatch.Store;
using VatWatch.Tests.Notifications;
using VatWatch.Tests.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Pipeline;

public sealed class OutboxQueueTests
{
    [Fact]
    public async Task What_was_told_from_memory_is_not_told_again_when_the_disk_had_taken_it_after_all()
    {
        await using var rig = Start();
        var queue = new OutboxQueue(rig.Store, "phone", TimeProvider.System);
        var cancel = TestContext.Current.CancellationToken;
        queue.KeepInMemory([SampleNotifications.TooHot()]);
        await rig.WriteAsync(work => OutboxTable.Add(work, SampleNotifications.TooHot(), "phone"));
        await rig.WriteAsync(work => OutboxTable.Add(work, SampleNotifications.TooHot() with { Sentence = "another" }, "phone"));

        var fromMemory = Assert.Single(await queue.PendingAsync(1, cancel));
        Assert.True(fromMemory.Id < 0);
        await queue.DeliveredAsync(fromMemory.Id, cancel);

        Assert.Equal("another", Assert.Single(await queue.PendingAsync(1, cancel)).Sentence);
        Assert.Equal("another", Assert.Single(rig.Read(reader => OutboxTable.Pending(reader, "phone", 10))).Sentence);
    }

    [Fact]
    public async Task A_disk_that_hangs_while_it_is_read_keeps_nothing_waiting_that_is_told_from_memory()
    {
        await using var rig = Start();
        var answer = new TaskCompletionSource<IReadOnlyList<Notification>>(TaskCreationOptions.RunContinuationsAsynchronously);
        var queue = new OutboxQueue(rig.Store, TimeProvider.System, _ => answer.Task);
        var cancel = TestContext.Current.CancellationToken;
        var pending = queue.PendingAsync(10, cancel);
        queue.KeepInMemory([SampleNotifications.TooHot()]);

        var fromMemory = Assert.Single(await pending.WaitAsync(TimeSpan.FromSeconds(30), cancel));
        Assert.True(fromMemory.Id < 0);
        await queue.DeliveredAsync(fromMemory.Id, cancel);

        answer.SetResult([SampleNotifications.TooHot() with { Id = 7, Sentence = "from the disk" }]);
        Assert.Equal("from the disk", Assert.Single(await queue.PendingAsync(10, cancel)).Sentence);
    }

    [Fact]
    [Trait("Starts", "processes")]
    public async Task A_disk_that_takes_nothing_is_still_read()
    {
        await using var rig = Start();
        var queue = new OutboxQueue(rig.Store, "phone", TimeProvider.System);
        await rig.WriteAsync(work => OutboxTable.Add(work, SampleNotifications.TooHot(), "phone"));
        using var other = new StoreHost("lock", Path.Combine(rig.Folder, "vatwatch.db"));
        Assert.Equal("locked", other.Next());
        await Assert.ThrowsAsync<StoreUnavailableException>(() => rig.SqlAsync("DELETE FROM outbox"));
        Assert.Single(await queue.PendingAsync(10, TestContext.Current.CancellationToken));
    }
}
