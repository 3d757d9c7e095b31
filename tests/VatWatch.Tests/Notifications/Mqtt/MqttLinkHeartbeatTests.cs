using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>The heartbeat and topics of single contacts, over a real mosquitto.</summary>
[Trait("Starts", "processes")]
public sealed class MqttLinkHeartbeatTests
{
    private const string Topic = "vatwatch/hill-studio/heartbeat";

    [Fact]
    public async Task The_heartbeat_names_time_and_vats_is_not_retained_and_stops_when_nothing_is_judged()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Topic);
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short with { Heartbeat = TimeSpan.FromMilliseconds(100) });
        await Eventually.TrueAsync(() => Beats(phone).Count >= 3, "it beats");
        var beat = Beats(phone)[0];
        Assert.False(beat.Retained);
        using var json = JsonDocument.Parse(beat.Payload);
        Assert.Equal("madder-lane", json.RootElement.GetProperty("vats")[0].GetString());
        Assert.InRange(DateTimeOffset.UtcNow - json.RootElement.GetProperty("time").GetDateTimeOffset(), TimeSpan.Zero, TimeSpan.FromMinutes(1));

        link.IsWatching = false;
        await Task.Delay(300, TestContext.Current.CancellationToken);
        var count = Beats(phone).Count;
        await Task.Delay(500, TestContext.Current.CancellationToken);
        Assert.Equal(count, Beats(phone).Count);
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task A_contact_with_a_topic_of_their_own_is_told_there_and_nowhere_else()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/hill-studio/+/notification/#");
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.OwnOutbox.Add(SampleNotifications.TooHot(3));
        link.Tell(4);
        await Eventually.TrueAsync(() => link.OwnOutbox.Delivered.SequenceEqual([3L]) && link.OutboxTable.Delivered.SequenceEqual([4L]), "both are marked");
        await Eventually.TrueAsync(() => phone.Messages.Count(IsOurs) == 2, "both have come");
        Assert.Equal(
            ["vatwatch/hill-studio/madder-lane/notification", "vatwatch/hill-studio/madder-lane/notification/dyer"],
            phone.Messages.Where(IsOurs).Select(message => message.Topic).Order());
    }

    private static List<ForeignMessage> Beats(MosquittoSub phone) => [.. phone.Messages.Where(message => message.Topic == Topic)];

    private static bool IsOurs(ForeignMessage message) => message.Topic.StartsWith("vatwatch/", StringComparison.Ordinal);
}
