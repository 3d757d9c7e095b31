using System.Collections.Concurrent;
using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Broker;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>The daemon's own broker, with mosquitto's tools as foreign clients.</summary>
[Trait("Starts", "processes")]
public sealed class BuiltinBrokerTests
{
    private readonly int _port = FreePort.Next();

    private MqttOptions Options => MqttOptions.Default with { Listen = new(IPAddress.Loopback, _port) };

    [Fact]
    public async Task Foreign_clients_see_everything_and_can_acknowledge()
    {
        await using var broker = await StartAsync(Options);
        await using var link = new RunningLink(Options);
        link.Link.Enqueue(RunningLink.Overheat(AlarmState.Unacknowledged));
        await Eventually.TrueAsync(() => link.Link.Counters.AlarmsPublished.Value == 1, "the alarm is published");

        using var phone = await MosquittoSub.StartAsync(new(_port), "vatwatch/hill-studio/#");
        Assert.Equal("online", (await phone.WaitForAsync("vatwatch/hill-studio/status", message => message.Retained)).Payload);
        await phone.WaitForAsync("vatwatch/hill-studio/madder-lane/alarm/overheat", message => message.Retained);
        link.Tell(1);
        await phone.WaitForAsync("vatwatch/hill-studio/madder-lane/notification", message => message is { Retained: false, Qos: 1, Properties: "notification-id:1" });
        link.Link.Enqueue(RunningLink.Liquor(46));
        await phone.WaitForAsync("vatwatch/hill-studio/madder-lane/measurement/liquor");

        var reply = "vatwatch/hill-studio/madder-lane/command/reply/phone";
        await MosquittoPub.SendAsync(new(_port), "vatwatch/hill-studio/madder-lane/command/acknowledge", """{"alarm":"overheat","by":"Ada"}""", responseTopic: reply);
        Assert.Equal("""{"accepted":true,"reason":null}""", (await phone.WaitForAsync(reply)).Payload);
        Assert.Single(link.Acknowledged);
    }

    [Fact]
    public async Task A_link_that_is_cut_leaves_the_will()
    {
        await using var broker = await StartAsync(Options);
        using var network = new TcpRelay(_port);
        using var phone = await MosquittoSub.StartAsync(new(_port), "vatwatch/hill-studio/status");
        await using var link = new RunningLink(RunningLink.To(network.Port));
        await phone.WaitForAsync("vatwatch/hill-studio/status", message => message.Payload == "online");
        network.Cut();
        await phone.WaitForAsync("vatwatch/hill-studio/status", message => message.Payload == "offline");
    }

    [Fact]
    public async Task A_phone_that_is_away_gets_its_notifications_when_it_comes_back()
    {
        await using var broker = await StartAsync(Options);
        await using var link = new RunningLink(Options);
        using (await MosquittoSub.StartAsync(new(_port), "vatwatch/+/+/notification", session: "phone"))
        {
            await link.ConnectedAsync();
        }

        link.Tell(1);
        await Eventually.TrueAsync(() => link.OutboxTable.Delivered.Count == 1, "it is taken");
        using var phone = await MosquittoSub.StartAsync(new(_port), "vatwatch/+/+/notification", session: "phone");
        await phone.WaitForAsync("vatwatch/hill-studio/madder-lane/notification");
    }

    [Fact]
    public async Task Tools_of_the_older_protocol_without_a_name_are_served()
    {
        await using var broker = await StartAsync(Options);
        await using var link = new RunningLink(Options);
        await link.ConnectedAsync();
        var heard = await ToolRun.RequireAsync("mosquitto_sub", ["-h", "127.0.0.1", "-p", $"{_port}", "-t", "vatwatch/hill-studio/status", "-C", "1", "-W", "10"]);
        Assert.Equal("online\n", heard.Output);
    }

    [Fact]
    public async Task Many_visits_leave_room_for_the_next()
    {
        await using var broker = await StartAsync(Options);
        for (var i = 0; i < BuiltinBroker.MostClients + 10; i++)
        {
            // A new name each time and a session to be kept: what a careless script leaves behind.
            var visit = await ToolRun.RunAsync("mosquitto_sub", [.. new MqttAccess(_port).Arguments, "-c", "-i", $"visitor-{i}", "-x", "3600", "-q", "1", "-t", "t/#", "-E"]);
            Assert.Equal((i, 0), (i, visit.ExitCode));
        }
    }

    [Fact]
    public async Task A_session_past_its_expiry_is_forgotten()
    {
        var time = new FakeTimeProvider(DateTimeOffset.UtcNow);
        await using var broker = await StartAsync(Options, time);
        (await MosquittoSub.StartAsync(new(_port), "t/#", session: "phone")).Dispose();
        await Eventually.TrueAsync(() => IPGlobalProperties.GetIPGlobalProperties().GetActiveTcpConnections().All(at => at.LocalEndPoint.Port != _port || at.State != TcpState.Established), "the phone has gone");
        time.Advance(TimeSpan.FromSeconds(3700));
        await MosquittoPub.SendAsync(new(_port), "t/old", "x");
        using var phone = await MosquittoSub.StartAsync(new(_port), "t/#", session: "phone");
        await MosquittoPub.SendAsync(new(_port), "t/new", "x");
        await phone.WaitForAsync("t/new");
        Assert.DoesNotContain(phone.Messages, message => message.Topic == "t/old");
    }

    [Fact]
    public async Task A_port_in_use_is_told_with_what_to_change_and_taken_once_it_is_free()
    {
        using var other = new TcpListener(IPAddress.Loopback, _port);
        other.Start();
        var (time, log) = (new FakeTimeProvider(DateTimeOffset.UtcNow), new Told());
        await using var broker = new BuiltinBroker(Options, time, log);
        await broker.StartAsync(CancellationToken.None);
        Assert.StartsWith(
            $"Built-in MQTT broker cannot start: 127.0.0.1:{_port} is in use by another program. Set mqtt.listen to another port, or mqtt.broker to that program's address if it is a broker.",
            Assert.Single(log.Sentences),
            StringComparison.Ordinal);

        other.Stop();
        await Eventually.TrueAsync(
            () =>
            {
                time.Advance(BuiltinBroker.Again);
                return log.Sentences.Count > 1;
            },
            "the broker listens");
        await using var link = new RunningLink(Options);
        await link.ConnectedAsync();
    }

    [Fact]
    public async Task Its_port_is_free_again_after_it_has_been_disposed()
    {
        await using (await StartAsync(Options))
        {
            await using var link = new RunningLink(Options);
            await link.ConnectedAsync();
        }

        await using var again = await StartAsync(Options);
    }

    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("::1")]
    public async Task It_listens_on_its_own_address_only(string address)
    {
        var listen = new IPEndPoint(IPAddress.Parse(address), _port);
        await using var broker = await StartAsync(Options with { Listen = listen });
        var listens = IPGlobalProperties.GetIPGlobalProperties().GetActiveTcpListeners().Where(at => at.Port == _port);
        Assert.Equal([listen], listens);
    }

    [Fact]
    public async Task What_is_too_large_is_refused()
    {
        await using var broker = await StartAsync(Options);
        using var phone = await MosquittoSub.StartAsync(new(_port), "t/#");
        var large = Path.Combine(Path.GetTempPath(), $"large-{_port}");
        await File.WriteAllTextAsync(large, new string('x', 65 * 1024), TestContext.Current.CancellationToken);
        await ToolRun.RunAsync("mosquitto_pub", [.. new MqttAccess(_port).Arguments, "-q", "1", "-t", "t/large", "-f", large]);
        File.Delete(large);
        await MosquittoPub.SendAsync(new(_port), "t/small", "x");
        await phone.WaitForAsync("t/small");
        Assert.DoesNotContain(phone.Messages, message => message.Topic == "t/large");
    }

    private static async Task<BuiltinBroker> StartAsync(MqttOptions options, TimeProvider? time = null)
    {
        var broker = new BuiltinBroker(options, time ?? TimeProvider.System, NullLogger<BuiltinBroker>.Instance);
        await broker.StartAsync(CancellationToken.None);
        return broker;
    }

    private sealed class Told : ILogger<BuiltinBroker>
    {
        public ConcurrentQueue<string> Sentences { get; } = [];

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Sentences.Enqueue(formatter(state, exception));
    }
}
