using VatWatch.Alarms;
using VatWatch.Notifications;
using VatWatch.Store;
using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Notifications;

public sealed class OutboxTableTests
{
    [Fact]
    public async Task Sentences_wait_in_order_of_their_rows_each_in_its_own_channel()
    {
        await using var rig = Start();
        var ids = await rig.WriteAsync(t => (Add(t, "one"), Add(t, "two", channel: "mail"), Add(t, "three")));

        var pending = rig.Read(reader => OutboxTable.Pending(reader, "mqtt", 10));

        Assert.Equal(
            [
                new(ids.Item1!.Value, Madder, new("overheat"), AlarmPriority.High, Dusk, "one"),
                new(ids.Item3!.Value, Madder, new("overheat"), AlarmPriority.High, Dusk, "three"),
            ],
            pending);
        Assert.Equal("one", Assert.Single(rig.Read(reader => OutboxTable.Pending(reader, "mqtt", 1))).Sentence);
        Assert.Equal("two", Assert.Single(await rig.WriteAsync(t => OutboxTable.Pending(t, "mail", 5))).Sentence);
    }

    [Fact]
    public async Task A_delivered_sentence_waits_no_longer_and_a_failed_one_does()
    {
        await using var rig = Start();
        await rig.WriteAsync(t => (Add(t, "one"), Add(t, "two")));
        await rig.WriteAsync(t =>
        {
            OutboxTable.MarkDelivered(t, 1, Dusk.AddSeconds(1));
            OutboxTable.MarkFailed(t, 2, "the broker hung up");
            OutboxTable.MarkFailed(t, 2, "the broker did not answer within 5 s");
            return 0;
        });

        Assert.Equal("two", Assert.Single(rig.Read(reader => OutboxTable.Pending(reader, "mqtt", 10))).Sentence);
        Assert.Equal(new(1, 0, Dusk, 2, "the broker did not answer within 5 s"), rig.Read(reader => OutboxState.Of(reader, "mqtt")));
        Assert.Equal(new(0, 0, null, 0, null), rig.Read(reader => OutboxState.Of(reader, "mail")));
    }

    [Fact]
    public async Task A_full_queue_gives_up_the_oldest_of_the_least_priority_and_counts()
    {
        await using var rig = Start();
        await rig.WriteAsync(t => Enumerable.Range(0, OutboxTable.Cap).Select(n => Add(t, $"{n}", n is 7 or 9 ? AlarmPriority.Low : AlarmPriority.High)).ToList());

        await rig.WriteAsync(t => (Add(t, "a", AlarmPriority.Critical), Add(t, "b"), Add(t, "c"), Add(t, "d", AlarmPriority.Medium)));

        var left = rig.Read(reader => OutboxTable.Pending(reader, "mqtt", 2000)).Select(n => n.Sentence).ToList();
        Assert.Equal(OutboxTable.Cap, left.Count);
        Assert.Equal(["1", "2", "3", "4", "5", "6", "8", "10"], left[..8]); // 7, 9 and then 0 went; "d" matters less than all and never came in
        Assert.Equal(["a", "b", "c"], left[^3..]);
        Assert.Equal(4, rig.Read(reader => OutboxState.Of(reader, "mqtt")).Dropped);
    }

    [Fact]
    public async Task A_sentence_that_was_refused_for_good_leaves_its_queue_with_the_reason()
    {
        await using var rig = Start();
        await rig.WriteAsync(t => (Add(t, "one"), Add(t, "two")));
        await rig.WriteAsync(t =>
        {
            OutboxTable.MarkDeadLettered(t, 1, "no such mailbox", Dusk);
            return 0;
        });
        Assert.Equal("two", Assert.Single(rig.Read(reader => OutboxTable.Pending(reader, "mqtt", 10))).Sentence);
        Assert.Equal(1, rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM outbox WHERE set_aside = 1 AND failure = 'no such mailbox' AND attempts = 1")));
    }

    [Fact]
    public async Task A_repeat_joins_no_queue_in_which_its_alarm_waits_already()
    {
        await using var rig = Start();
        var note = new Notification(0, Madder, new("overheat"), AlarmPriority.High, Dusk, "again") { IsRepeat = true, Document = "{}" };
        Assert.NotNull(await rig.WriteAsync(t => OutboxTable.Add(t, note, "mail")));
        Assert.Null(await rig.WriteAsync(t => OutboxTable.Add(t, note, "mail")));
        Assert.NotNull(await rig.WriteAsync(t => OutboxTable.Add(t, note with { Alarm = new("cold") }, "mail")));
        Assert.NotNull(await rig.WriteAsync(t => OutboxTable.Add(t, note with { IsRepeat = false }, "mail")));
        Assert.Equal("{}", rig.Read(reader => OutboxTable.Pending(reader, "mail", 10))[0].Document);
        Assert.Equal(3, rig.Read(reader => OutboxState.Of(reader, "mail")).Waiting);
    }

    [Fact]
    public async Task A_row_is_never_used_twice_and_delivered_ones_do_not_pile_up()
    {
        await using var rig = Start();
        long? last = null;
        await rig.WriteAsync(t =>
        {
            for (var n = 0; n < 3000; n++)
            {
                last = Add(t, "x");
                OutboxTable.MarkDelivered(t, last!.Value, Dusk);
            }

            return 0;
        });

        Assert.Equal(3000, last);
        Assert.Equal(1000, rig.Read(reader => reader.Sql.Whole("SELECT count(*) FROM outbox")));
        await rig.SqlAsync("DELETE FROM outbox");
        Assert.Equal(3001, await rig.WriteAsync(t => Add(t, "y")));
    }

    private static long? Add(StoreTransaction transaction, string sentence, AlarmPriority priority = AlarmPriority.High, string channel = "mqtt") =>
        OutboxTable.Add(transaction, Madder, new("overheat"), priority, Dusk, sentence, channel);
}
