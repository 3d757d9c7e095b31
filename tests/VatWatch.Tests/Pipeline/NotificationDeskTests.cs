using VatWatch.Notifications;
using VatWatch.Pipeline;
using VatWatch.Tests.Notifications;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Pipeline;

public sealed class NotificationDeskTests
{
    [Fact]
    public async Task What_was_told_from_memory_is_not_told_again_when_the_disk_had_taken_it_after_all()
    {
        await using var rig = Start();
        var desk = new NotificationDesk(rig.Store, "phone", TimeProvider.System);
        var cancel = TestContext.Current.CancellationToken;
        desk.KeepInMemory([SampleNotifications.TooHot()]);
        await rig.WriteAsync(work => Outbox.Add(work, SampleNotifications.TooHot(), "phone"));
        await rig.WriteAsync(work => Outbox.Add(work, SampleNotifications.TooHot() with { Sentence = "another" }, "phone"));

        var fromMemory = Assert.Single(await desk.PendingAsync(1, cancel));
        Assert.True(fromMemory.Id < 0);
        await desk.DeliveredAsync(fromMemory.Id, cancel);

        Assert.Equal("another", Assert.Single(await desk.PendingAsync(1, cancel)).Sentence);
        Assert.Equal("another", Assert.Single(rig.Read(reader => Outbox.Pending(reader, "phone", 10))).Sentence);
    }
}
