using System.Globalization;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests;

/// <summary>Acts on alarms and chatter through the built binary: the verb in a process of its own beside the daemon, an instrument that will not settle.</summary>
public sealed class AlarmDeskTests
{
    private const string Topics = "vatwatch/test-studio/weld-yard";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task The_verb_shelves_notes_and_unshelves_and_a_kill_forgets_none_of_it()
    {
        using var studio = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), Topics + "/#");
        studio.WriteBenchConfig(instrument.Port, Mqtt(broker));
        await instrument.TellAsync("set T 50.5");
        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await phone.WaitForAsync(Topics + "/alarm/overheat", StateIs("unacknowledged"), Patience);

            var shelved = await AskAsync(studio, "shelve", "--alarm", "overheat", "--minutes", "600", "--reason", "heater is unplugged");
            Assert.Equal((0, "overheat of weld-yard is shelved for 30 min."), (shelved.Code, shelved.Output.Trim()));
            await phone.WaitForAsync(Topics + "/alarm/overheat", StateIs("shelved"), Patience);
            Assert.Equal(0, (await AskAsync(studio, "note", "--text", "waiting for it to cool")).Code);
            var again = await AskAsync(studio, "shelve", "--alarm", "overheat", "--minutes", "5", "--reason", "again");
            Assert.Equal(1, again.Code);
            Assert.Contains("it is set aside already", again.Errors, StringComparison.Ordinal);
            await watch.KillAsync();
        }

        var (code, output, _) = await VatWatchProcess.RunAsync(Patience, "alarms", "--config", studio.Config, "--journal", "--json");
        var listed = JsonDocument.Parse(output).RootElement;
        Assert.Equal((0, false), (code, listed.GetProperty("daemonRuns").GetBoolean()));
        var overheat = listed.GetProperty("alarms").EnumerateArray().Single(alarm => alarm.GetProperty("alarm").GetString() == "overheat");
        Assert.Equal("heater is unplugged", overheat.GetProperty("setAsideBecause").GetString());
        Assert.Contains(listed.GetProperty("journal").EnumerateArray(), line => line.GetProperty("note").GetString() == "waiting for it to cool" && line.GetProperty("via").GetString() == "verb");

        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            var after = "";
            for (var tries = 0; !after.Contains("\"daemonRuns\": true", StringComparison.Ordinal) && tries < 60; tries++)
            {
                (_, after, _) = await VatWatchProcess.RunAsync(Patience, "alarms", "--config", studio.Config, "--json");
            }

            Assert.Contains("\"shelvedUntil\": \"" + overheat.GetProperty("shelvedUntil").GetString(), after, StringComparison.Ordinal);
            Assert.Equal(0, (await AskAsync(studio, "unshelve", "--alarm", "overheat")).Code);
            await phone.WaitForAsync(Topics + "/alarm/overheat", StateIs("unacknowledged"), Patience);
            await watch.KillAsync();
        }
    }

    [Fact]
    public async Task A_chattering_alarm_is_shelved_by_the_daemon_which_says_so()
    {
        using var studio = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), Topics + "/#");
        studio.WriteBenchConfig(instrument.Port, Mqtt(broker), alarms: """{ "probe-silent": { "onDelay": "1 s", "offDelay": "0 s", "priority": "medium" } }""");
        await instrument.TellAsync("set T 44");
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await phone.WaitForAsync(Topics + "/measurement/liquor-ph", limit: Patience);

        // Which of the probes comes and goes three times first depends on who is asked when the silence falls.
        ForeignMessage? shelved = null;
        for (var round = 0; shelved is null && round < 8; round++)
        {
            await instrument.TellAsync("silent on");
            await Task.Delay(TimeSpan.FromSeconds(4), TestContext.Current.CancellationToken);
            await instrument.TellAsync("silent off");
            await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
            shelved = phone.Messages.FirstOrDefault(message => message.Topic.Contains("/alarm/probe-silent.", StringComparison.Ordinal) && StateIs("shelved")(message));
        }

        Assert.NotNull(shelved);
        var probe = shelved.Topic.Split('.')[^1];

        // Three probes that come and go together are a flood, so the sentence may be held back from the phone; the alarm's own topic has it.
        Assert.Contains("It came and went 3 times within a minute and is set aside for 30 min.", shelved.Payload, StringComparison.Ordinal);
        var (_, output, _) = await VatWatchProcess.RunAsync(Patience, "alarms", "--config", studio.Config);
        Assert.Contains($"weld-yard probe-silent.{probe}  shelved since", output, StringComparison.Ordinal);
        Assert.Contains("by VatWatch at", output, StringComparison.Ordinal);
    }

    private static string Mqtt(MosquittoBroker broker) => string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "mqtt://127.0.0.1:{{broker.Port}}" }""");

    private static Task<(int Code, string Output, string Errors)> AskAsync(Studio studio, string act, params string[] rest) =>
        VatWatchProcess.RunAsync(Patience, ["alarms", act, "--config", studio.Config, "--vat", "weld-yard", "--by", "Ada", .. rest]);

    private static Func<ForeignMessage, bool> StateIs(string state) => message => message.Payload.Contains($"\"state\":\"{state}\"", StringComparison.Ordinal);
}
