using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Sentences from the outbox to a foreign client over a real mosquitto, and over a broker that does not acknowledge.</summary>
[Trait("Starts", "processes")]
public sealed class TopicDeliveryTests
{
    private const string Topic = "vatwatch/hill-studio/madder-lane/notification";

    [Fact]
    public async Task A_sentence_arrives_as_it_is_with_its_number_and_is_marked_after_the_acknowledgement()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/#");
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Tell(7);
        var message = await phone.WaitForAsync(Topic);
        Assert.Equal(new(Topic, 1, false, "notification-id:7", "7 Madder Lane vat: 121.0 °F, limit 120 °F."), message);
        await Eventually.TrueAsync(() => link.OutboxTable.Delivered.SequenceEqual([7L]), "it is marked");
        Assert.Equal(0, link.Link.Counters.NotificationsUnheard.Value);
    }

    [Fact]
    public async Task A_sentence_that_nobody_hears_is_delivered_and_said_once_in_the_log()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Tell(1);
        link.Tell(2);
        await Eventually.TrueAsync(() => link.OutboxTable.Delivered.Count == 2, "both are marked");
        Assert.Equal(2, link.Link.Counters.NotificationsUnheard.Value);
        Assert.Single(link.Logged, line => line.Contains("nobody is subscribed", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Stopping_and_starting_the_broker_loses_none_and_keeps_the_order_with_at_most_one_repeat_for_each_break()
    {
        const int Count = 120;
        const int Breaks = 3;
        await using var broker = await MosquittoBroker.StartAsync(new() { Persistent = true });
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/hill-studio/+/notification", session: "phone");
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        await link.ConnectedAsync();
        var telling = Task.Run(async () =>
        {
            for (var id = 1; id <= Count; id++)
            {
                link.Tell(id);
                await Task.Delay(40, CancellationToken.None);
            }
        }, TestContext.Current.CancellationToken);
        for (var i = 0; i < Breaks; i++)
        {
            await Task.Delay(700, TestContext.Current.CancellationToken);
            await broker.StopAsync();
            await Task.Delay(500, TestContext.Current.CancellationToken);
            await broker.StartAgainAsync();
        }

        await telling;
        await Eventually.TrueAsync(() => link.OutboxTable.Pending.Count == 0, "the outbox is empty", TimeSpan.FromSeconds(30));
        await phone.WaitForAsync(Topic, message => message.Properties == $"notification-id:{Count}", TimeSpan.FromSeconds(30));
        var heard = phone.Messages.Where(message => message.Topic == Topic).Select(message => int.Parse(message.Properties.Split(':')[1])).ToList();
        Assert.Equal(Enumerable.Range(1, Count), heard.Distinct());

        // Repeats are counted where they enter the broker: between broker and phone it repeats what the phone had not acknowledged.
        var sent = broker.Log.Split('\n').Count(line => line.Contains("Received PUBLISH from vatwatch-hill-studio", StringComparison.Ordinal) && line.Contains($"'{Topic}'", StringComparison.Ordinal));
        Assert.InRange(sent, Count, Count + Breaks);
        Assert.True(link.Link.Counters.Connections.Value > Breaks);
    }

    [Fact]
    public async Task A_broker_that_never_acknowledges_marks_nothing_and_is_given_up_with_a_reason()
    {
        using var broker = new UnacknowledgingBroker(topic => topic.EndsWith("/status", StringComparison.Ordinal));
        var timings = RunningLink.Short with { Exchange = TimeSpan.FromMilliseconds(300), FirstRetry = TimeSpan.FromMilliseconds(200) };
        await using var link = new RunningLink(RunningLink.To(broker.Port), timings);
        link.Tell(1);
        link.Tell(2);
        await Eventually.TrueAsync(() => broker.Connections >= 3, "it tries on new connections");
        Assert.Empty(link.OutboxTable.Delivered);
        Assert.Equal(2, link.OutboxTable.Pending.Count);
        Assert.Contains(link.States, state => state.Reason?.Contains("no answer to publishing within 0.3 s", StringComparison.Ordinal) == true);

        // One try for each connection, and never the second before the first.
        var tries = broker.Published.Count(topic => topic == Topic);
        Assert.InRange(tries, 1, broker.Connections);
        Assert.InRange(link.Logged.Count(line => line.Contains("no answer to publishing", StringComparison.Ordinal)), 1, broker.Connections);
    }

    [Fact]
    public async Task A_broker_that_does_not_even_acknowledge_the_status_never_counts_as_connected()
    {
        using var broker = new UnacknowledgingBroker(_ => false);
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short with { Exchange = TimeSpan.FromMilliseconds(200) });
        link.Tell(1);
        await Eventually.TrueAsync(() => broker.Connections >= 2, "it tries again");
        Assert.DoesNotContain(link.States, state => state.Connected);
        Assert.DoesNotContain(Topic, broker.Published);
        Assert.Equal(0, link.Link.Counters.Connections.Value);
    }

    [Fact]
    public async Task A_refused_vat_is_tried_a_bounded_number_of_times_while_others_are_served()
    {
        // MQTT 5 §3.4.2.1: PUBACK reason 0x87 is "not authorized".
        using var broker = new UnacknowledgingBroker(_ => true, topic => topic == Topic ? 0x87 : null);
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Tell(1);
        link.Tell(2);
        link.Tell(3, vat: "wool-vat");
        await Eventually.TrueAsync(() => link.OutboxTable.Failed.Count >= 2, "it is tried again");
        await Task.Delay(1500, TestContext.Current.CancellationToken);
        Assert.Equal([3L], link.OutboxTable.Delivered);
        Assert.All(link.OutboxTable.Failed, failed => Assert.Equal((1L, $"the broker refuses topic {Topic} (NotAuthorized)"), failed));

        // Waits of 0.2, 0.4, 0.8 and 1.6 s, each a fifth longer or shorter.
        Assert.InRange(link.OutboxTable.Failed.Count, 2, 5);
        Assert.Equal($"the broker refuses topic {Topic} (NotAuthorized)", link.Phone.Trouble);
        Assert.Equal([1L, 2L], link.OutboxTable.Pending.Select(notification => notification.Id).ToArray());
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task What_the_broker_says_stands_in_log_and_trouble_without_anything_that_could_steer_them()
    {
        using var broker = new UnacknowledgingBroker(_ => true, topic => topic == Topic ? 0x87 : null, "not\nyou\u001b[31m\u202egnihton\u2066 ");
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Tell(1);
        await Eventually.TrueAsync(() => link.OutboxTable.Failed.Count > 0, "it is trouble, and the outbox knows");
        var reason = $"the broker refuses topic {Topic} (NotAuthorized: not you[31mgnihton)";
        Assert.Equal(reason, link.Phone.Trouble);
        Assert.Equal((1L, reason), link.OutboxTable.Failed[0]);
        Assert.Contains(link.Logged, line => line.Contains(reason, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_topic_that_is_not_confirmed_is_tried_again_on_the_same_connection_and_holds_up_no_other_vat()
    {
        using var broker = new UnacknowledgingBroker(topic => topic != Topic);
        var timings = RunningLink.Short with { Exchange = TimeSpan.FromMilliseconds(300) };
        await using var link = new RunningLink(RunningLink.To(broker.Port), timings);
        link.Tell(1);
        link.Tell(2, vat: "wool-vat");
        await Eventually.TrueAsync(() => link.OutboxTable.Failed.Count >= 2, "it is tried again");
        Assert.Equal([2L], link.OutboxTable.Delivered);
        Assert.Equal(1, broker.Connections);
        Assert.Equal($"the broker does not confirm topic {Topic}, though it answers otherwise", link.Phone.Trouble);
    }

    [Fact]
    public async Task An_outbox_that_fails_is_said_once_and_used_again_when_it_works()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short);
        link.OutboxTable.Broken = new IOException("database or disk is full");
        await link.ConnectedAsync();
        link.Tell(1);
        await Eventually.TrueAsync(() => link.Logged.Any(line => line.Contains("6203", StringComparison.Ordinal)), "it is said");
        await Task.Delay(300, TestContext.Current.CancellationToken);
        link.OutboxTable.Broken = null;
        await Eventually.TrueAsync(() => link.OutboxTable.Delivered.Count == 1, "it goes out");
        Assert.Single(link.Logged, line => line.StartsWith("Error 6203 Outbox of contact 'phone'", StringComparison.Ordinal));
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task A_store_that_fails_after_the_acknowledgement_does_not_make_the_phone_hear_it_again()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Topic);
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short);
        await link.ConnectedAsync();
        link.OutboxTable.FailMarks = 3;
        link.Tell(1);
        link.Tell(2);
        await Eventually.TrueAsync(() => link.OutboxTable.Delivered.SequenceEqual([1L, 2L]), "both are marked");
        await phone.WaitForAsync(Topic, message => message.Properties == "notification-id:2");
        Assert.Equal(2, phone.Messages.Count(message => message.Topic == Topic));
    }
}
