using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms.Acts;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Acknowledgements sent by mosquitto_pub, with answers on the response topic of MQTT 5 (§4.10).</summary>
[Trait("Starts", "processes")]
public sealed class CommandHandlerTests
{
    private const string Topic = "vatwatch/hill-studio/madder-lane/command/acknowledge";
    private const string Good = """{"alarm":"overheat","by":"Ada"}""";
    private const string Answers = "phone/7";

    [Fact]
    public async Task An_acknowledgement_reaches_the_desk_and_is_answered()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Answers);
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good, responseTopic: Answers);
        Assert.Equal("""{"accepted":true,"reason":null}""", (await phone.WaitForAsync(Answers)).Payload);
        Assert.Equal([new AlarmAct(AlarmActKind.Acknowledge, RunningLink.Madder, new("overheat"), "Ada", "mqtt")], link.Acknowledged);
        Assert.Equal(1, link.Link.Counters.CommandsAccepted.Value);
    }

    [Theory]
    [InlineData("shelve", """{"alarm":"overheat","by":"Ada","minutes":20,"reason":"probe out"}""", AlarmActKind.Shelve)]
    [InlineData("unshelve", Good, AlarmActKind.Unshelve)]
    [InlineData("note", """{"alarm":"overheat","by":"Ada","text":"lid was shut"}""", AlarmActKind.Note)]
    public async Task The_other_commands_reach_the_desk_too(string word, string payload, AlarmActKind kind)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Answers);
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), $"vatwatch/hill-studio/madder-lane/command/{word}", payload, responseTopic: Answers);
        Assert.Equal("""{"accepted":true,"reason":null}""", (await phone.WaitForAsync(Answers)).Payload);
        Assert.Equal(kind, Assert.Single(link.Acknowledged).Kind);
    }

    [Fact]
    public async Task A_heater_that_was_switched_is_written_into_the_log_book_and_a_refusal_is_answered()
    {
        const string Heater = "vatwatch/hill-studio/madder-lane/command/heater";
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "phone/+");
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Heater, """{"heater":"on","readyBy":"09:00","by":"Ada"}""", responseTopic: Answers);
        Assert.Equal("""{"accepted":true,"reason":null}""", (await phone.WaitForAsync(Answers)).Payload);
        await MosquittoPub.SendAsync(new(broker.Port), Heater, """{"heater":"off","by":"Nobody"}""", responseTopic: "phone/8");
        Assert.Equal("""{"accepted":false,"reason":"there is no vat 'madder-lane'"}""", (await phone.WaitForAsync("phone/8")).Payload);
        Assert.Equal([EntryKind.HeaterOn, EntryKind.HeaterOff], link.Entries.Select(entry => entry.Kind));
    }

    [Theory]
    [InlineData("""{"alarm":"cold","by":"Ada"}""", "vat 'madder-lane' has no alarm 'cold' that waits for an acknowledgement")]
    [InlineData("acknowledge everything", "the command is not JSON")]
    public async Task A_bad_command_is_answered_and_logged_once_and_the_link_stays(string payload, string told)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), Answers);
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, payload, responseTopic: Answers);
        var answer = await phone.WaitForAsync(Answers);
        Assert.StartsWith("{\"accepted\":false,\"reason\":\"" + told, answer.Payload, StringComparison.Ordinal);
        Assert.Single(link.Logged, line => line.Contains(told, StringComparison.Ordinal));
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task A_retained_command_is_refused_when_sent_and_not_given_again_at_a_reconnect()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var network = new TcpRelay(broker.Port);
        await using var link = new RunningLink(RunningLink.To(network.Port));
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good, retain: true);
        await Eventually.TrueAsync(() => link.Link.Counters.CommandsRefused.Value == 1, "it is refused");

        // Until the broker has our acknowledgement it rightly gives the command again (MQTT 5 §4.4).
        await Eventually.TrueAsync(() => broker.Logged("Received PUBACK from vatwatch-hill-studio") == 1, "the broker knows that it was taken");
        network.Cut();
        await Eventually.TrueAsync(() => link.Link.Counters.Connections.Value == 2, "the link is back");
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good);
        await Eventually.TrueAsync(() => link.Link.Counters.CommandsAccepted.Value == 1, "a proper one is taken");
        Assert.Equal(1, link.Link.Counters.CommandsRefused.Value);
    }

    [Fact]
    public async Task A_command_sent_during_a_short_break_arrives_afterwards()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var network = new TcpRelay(broker.Port);
        await using var link = new RunningLink(RunningLink.To(network.Port), RunningLink.Short with { FirstRetry = TimeSpan.FromSeconds(2) });
        await link.ConnectedAsync();
        network.Cut();
        await link.LostAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good);
        Assert.Empty(link.Acknowledged);
        await Eventually.TrueAsync(() => link.Acknowledged.Count > 0, "it arrives");
    }

    [Fact]
    public async Task An_answer_is_never_sent_onto_a_topic_of_state()
    {
        const string Victim = "vatwatch/hill-studio/madder-lane/alarm/overheat";
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "#");
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good, responseTopic: Victim);
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good, responseTopic: Answers);
        await phone.WaitForAsync(Answers);
        Assert.DoesNotContain(phone.Messages, message => message.Topic == Victim);
    }

    [Fact]
    public async Task A_flood_is_cut_to_the_rate_and_said_once()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        await link.ConnectedAsync();
        var file = Path.Combine(broker.Folder, "flood");
        await File.WriteAllLinesAsync(file, Enumerable.Repeat(Good, 500), TestContext.Current.CancellationToken);
        await ToolRun.RequireAsync("sh", ["-c", $"mosquitto_pub -V 5 -h 127.0.0.1 -p {broker.Port} -q 1 -t {Topic} -l < {file}"]);
        await Eventually.TrueAsync(() => link.Link.Counters is var seen && seen.CommandsAccepted.Value + seen.CommandsRefused.Value == 500, "all have come in");
        Assert.InRange(link.Link.Counters.CommandsAccepted.Value, 20, 30);
        Assert.InRange(link.Logged.Count(line => line.Contains("6121", StringComparison.Ordinal)), 1, 10);
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task A_desk_that_fails_or_hangs_is_answered_and_does_not_stop_the_link()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        var time = new FakeTimeProvider();
        var hangs = new TaskCompletionSource<bool>();
        var desk = new RecordingDesk { Answer = act => act.By == "Ada" ? throw new IOException("disk is full") : hangs.Task };
        await using var link = new RunningLink(RunningLink.To(broker.Port), desk: desk, deskTime: time);
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "phone/+");
        await link.ConnectedAsync();
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good, responseTopic: "phone/fails");
        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good.Replace("Ada", "Bea", StringComparison.Ordinal), responseTopic: "phone/hangs");
        Assert.Equal(
            """{"accepted":false,"reason":"the command could not be carried out; look at the vat and try again"}""", (await phone.WaitForAsync("phone/fails")).Payload);
        await Eventually.TrueAsync(() => link.Acknowledged.Count == 2, "the second reaches the desk");
        await Eventually.TrueAsync(
            () =>
            {
                time.Advance(AlarmService.LongestWait);
                return phone.Messages.Any(message => message.Topic == "phone/hangs");
            },
            "it is given up");
        Assert.Equal(
            """{"accepted":false,"reason":"the store did not confirm it within 10 s; look at the alarm and try again"}""", (await phone.WaitForAsync("phone/hangs")).Payload);
        Assert.True(link.Link.State.Connected);
    }

    [Fact]
    public async Task Random_bytes_on_the_command_topic_leave_the_link_standing()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var link = new RunningLink(RunningLink.To(broker.Port));
        await link.ConnectedAsync();
        var random = new Random(8);
        var file = Path.Combine(broker.Folder, "noise");
        for (var i = 0; i < 15; i++)
        {
            var noise = new byte[random.Next(0, 3000)];
            random.NextBytes(noise);
            await File.WriteAllBytesAsync(file, noise, TestContext.Current.CancellationToken);
            await ToolRun.RequireAsync("mosquitto_pub", ["-V", "5", "-h", "127.0.0.1", "-p", $"{broker.Port}", "-q", "1", "-t", Topic, "-f", file]);
        }

        await MosquittoPub.SendAsync(new(broker.Port), Topic, Good);
        await Eventually.TrueAsync(() => link.Link.Counters.CommandsAccepted.Value == 1, "a good command still works");
        Assert.Equal(15, link.Link.Counters.CommandsRefused.Value);
        Assert.Single(link.States);
    }
}
