using System.Text.Json;
using VatWatch.Alarms;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>What stands on the topics of a real mosquitto, seen with mosquitto_sub. Topics, QoS and retain flags: the table of topics in config/asyncapi.yaml.</summary>
[Trait("Starts", "processes")]
public sealed class MqttLinkTests
{
    private const string Site = "vatwatch/hill-studio";

    [Fact]
    public async Task A_late_subscriber_sees_status_alarm_condition_and_measurement_as_retained()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Link.Enqueue(RunningLink.Liquor(44.4));
        link.Link.Enqueue(RunningLink.Liquor(46.125));
        link.Link.Enqueue(RunningLink.Warming(35));
        link.Link.Enqueue(RunningLink.Overheat(AlarmState.Unacknowledged));
        link.Link.Enqueue(RunningLink.Overheat(AlarmState.Normal, 117));
        await Eventually.TrueAsync(() => link.Link.Counters is { AlarmsPublished.Value: > 0, ConditionsPublished.Value: > 0, MeasurementsPublished.Value: 2 }, "everything is published");

        using var late = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/#");
        Assert.Equal(("online", true, 1), Told(await late.WaitForAsync($"{Site}/status")));
        var measurement = await late.WaitForAsync($"{Site}/madder-lane/measurement/liquor");
        Assert.True(measurement.Retained);
        Assert.Equal(0, measurement.Qos);
        Assert.Equal(46.125, JsonDocument.Parse(measurement.Payload).RootElement[0].GetProperty("v").GetDouble());
        var condition = await late.WaitForAsync($"{Site}/madder-lane/condition");
        Assert.True(condition.Retained);
        Assert.Equal("warming", JsonDocument.Parse(condition.Payload).RootElement.GetProperty("state").GetString());
        var alarm = await late.WaitForAsync($"{Site}/madder-lane/alarm/overheat");
        Assert.True(alarm.Retained);
        Assert.Equal("normal", JsonDocument.Parse(alarm.Payload).RootElement.GetProperty("state").GetString());

        static (string, bool, int) Told(ForeignMessage message) => (message.Payload, message.Retained, message.Qos);
    }

    [Fact]
    public async Task Cutting_the_connection_makes_the_broker_say_offline_and_the_link_comes_back_online()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var network = new TcpRelay(broker.Port);
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/status");
        await using var link = new RunningLink(RunningLink.To(network.Port));
        await phone.WaitForAsync($"{Site}/status", message => message.Payload == "online");

        network.Cut();

        await phone.WaitForAsync($"{Site}/status", message => message.Payload == "offline");
        await Eventually.TrueAsync(() => phone.Messages.Count(message => message.Payload == "online") == 2, "it is online again");
        Assert.Equal([true, false, true], link.States.Select(state => state.Connected).ToArray());
    }

    [Fact]
    public async Task Stopping_says_offline_by_itself()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        var link = new RunningLink(RunningLink.To(broker.Port));
        await link.ConnectedAsync();
        await link.StopAsync();
        using var late = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/#");
        Assert.Equal("offline", (await late.WaitForAsync($"{Site}/status")).Payload);

        // A clean leave: mosquitto would otherwise log that the client closed its connection.
        Assert.Contains("Received DISCONNECT from vatwatch-hill-studio", broker.Log, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broker_that_forgot_everything_gets_it_all_anew()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        link.Link.Enqueue(RunningLink.Liquor(46));
        link.Link.Enqueue(RunningLink.Warming(35));
        link.Link.Enqueue(RunningLink.Overheat(AlarmState.Acknowledged));
        await Eventually.TrueAsync(() => link.Link.Counters is { AlarmsPublished.Value: 1, ConditionsPublished.Value: 1, MeasurementsPublished.Value: 1 }, "everything is published");

        await broker.KillAsync();
        await link.LostAsync();
        await broker.StartAgainAsync();

        using var late = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/#");
        await late.WaitForAsync($"{Site}/madder-lane/measurement/liquor");
        await late.WaitForAsync($"{Site}/madder-lane/condition");
        var alarm = await late.WaitForAsync($"{Site}/madder-lane/alarm/overheat");
        Assert.Contains("\"state\":\"acknowledged\"", alarm.Payload, StringComparison.Ordinal);
    }

    [Fact]
    public async Task While_the_broker_is_away_only_the_last_state_of_an_alarm_is_kept_and_it_arrives()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/madder-lane/#");
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        await link.ConnectedAsync();
        await broker.StopAsync();
        await link.LostAsync();
        for (var i = 0; i < 500; i++)
        {
            link.Link.Enqueue(RunningLink.Overheat(i % 2 == 0 ? AlarmState.Unacknowledged : AlarmState.Acknowledged, 120 + i));
            link.Link.Enqueue(RunningLink.Warming(i));
        }

        await broker.StartAgainAsync();
        await phone.WaitForAsync($"{Site}/madder-lane/alarm/overheat", message => message.Payload.Contains("\"value\":619", StringComparison.Ordinal));
        await phone.WaitForAsync($"{Site}/madder-lane/condition", message => message.Payload.Contains("\"temperatureC\":499", StringComparison.Ordinal));
        Assert.Equal(499, link.Link.Counters.ConditionsReplaced.Value);
        Assert.Equal(1, link.Link.Counters.AlarmsPublished.Value);
    }

    [Fact]
    public async Task Measurements_beyond_the_bound_drop_the_oldest_and_are_counted()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/#");
        await broker.StopAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short with { MeasurementCapacity = 10 });
        for (var i = 0; i < 25; i++)
        {
            link.Link.Enqueue(RunningLink.Liquor(i, i));
        }

        Assert.Equal(15, link.Link.Counters.MeasurementsDropped.Value);
        await broker.StartAgainAsync();
        using var late = await MosquittoSub.StartAsync(new(broker.Port), $"{Site}/#");
        await Eventually.TrueAsync(() => link.Link.Counters.MeasurementsPublished.Value == 10, "what is left goes out");
        await late.WaitForAsync($"{Site}/madder-lane/measurement/liquor", message => message.Payload.Contains("\"v\":24", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_broker_that_hangs_is_noticed_although_measurements_still_flow_into_the_socket()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short with { KeepAlive = TimeSpan.FromSeconds(2), Exchange = TimeSpan.FromSeconds(1) });

        // No heartbeat: its acknowledgement may be the first that is missed.
        link.IsWatching = false;
        await link.ConnectedAsync();
        using var flow = new CancellationTokenSource();
        var flowing = Task.Run(async () =>
        {
            for (var i = 0; !flow.IsCancellationRequested; i++)
            {
                link.Link.Enqueue(RunningLink.Liquor(i, i));
                await Task.Delay(50, CancellationToken.None);
            }
        }, TestContext.Current.CancellationToken);

        broker.Pause();
        await link.LostAsync(TimeSpan.FromSeconds(6));
        Assert.Contains("no answer to a ping within 1 s", link.Link.State.Reason, StringComparison.Ordinal);
        broker.Resume();
        await link.ConnectedAsync();
        await flow.CancelAsync();
        await flowing;
    }

    [Fact]
    public async Task The_brokers_own_shorter_keep_alive_is_honoured()
    {
        // mosquitto.conf(5): max_keepalive, told to MQTT 5 clients as Server Keep Alive; it disconnects after one and a half times that, before the first ping of our own keep alive.
        await using var broker = await MosquittoBroker.StartAsync(new() { Lines = ["max_keepalive 10"] });
        await using var link = new RunningLink(RunningLink.To(broker.Port), RunningLink.Short with { KeepAlive = TimeSpan.FromSeconds(60), Exchange = TimeSpan.FromSeconds(30) });
        await Eventually.TrueAsync(() => broker.Logged("Received PINGREQ from vatwatch-hill-studio") >= 2, "it pings", TimeSpan.FromSeconds(40));
        Assert.Single(link.States);
    }
}
