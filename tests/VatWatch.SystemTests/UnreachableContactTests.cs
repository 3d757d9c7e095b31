using System.Diagnostics;
using System.Text;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;
using VatWatch.Testing.Servers;

namespace VatWatch.SystemTests;

/// <summary>The built binary at brokers that do not take notifications though they are well otherwise: who hears of it, and how soon.</summary>
[Trait("Campaign", "faults")]
[Trait("Starts", "processes")]
public sealed class UnreachableContactTests
{
    private const string Topic = "vatwatch/test-studio/weld-yard/notification";
    private static readonly TimeSpan Wanted = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Where_the_brokers_access_list_denies_notifications_the_next_contact_hears_of_it_and_of_the_alarm_within_a_minute()
    {
        await using var broker = await MosquittoBroker.StartAsync(new()
        {
            Configuration = async (folder, port) =>
            {
                var list = Path.Combine(folder, "acl.txt");
                string[] granted = ["status", "heartbeat", "+/measurement/+", "+/condition", "+/alarm/+"];
                await File.WriteAllLinesAsync(list, granted.Select(topic => $"topic readwrite vatwatch/test-studio/{topic}").Append("topic read vatwatch/test-studio/#"));
                return $"listener {port} 127.0.0.1\nallow_anonymous true\nacl_file {list}";
            },
        });
        using var studio = new Studio();
        await using var hook = await WebServer.StartAsync();
        await using var instrument = await OverheatedAsync(studio, broker.Port, hook.Port);

        var atSetUp = await VatWatchProcess.RunAsync(Wanted, "notify", "phone", "--config", studio.Config);
        Assert.Equal(1, atSetUp.Code);
        Assert.Contains($"the broker refuses topic {Topic} (NotAuthorized)", atSetUp.Errors, StringComparison.Ordinal);

        using var screen = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/test-studio/#", awaitReady: false);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await AssertToldAsync(hook, "an access list without notifications", $"Contact phone is not told of alarms: the broker refuses topic {Topic} (NotAuthorized).");
        await screen.WaitForAsync(
            "vatwatch/test-studio/daemon/alarm/contact-unreachable.phone", message => message.Payload.Contains("\"unacknowledged\"", StringComparison.Ordinal), Wanted);
        Assert.Equal(0, await watch.StopAsync(Wanted));
    }

    [Fact]
    public async Task Where_the_broker_confirms_everything_but_notifications_they_are_not_poured_out_and_the_next_contact_hears_of_it()
    {
        using var broker = new UnacknowledgingBroker(topic => !topic.EndsWith("/notification", StringComparison.Ordinal));
        using var studio = new Studio();
        await using var hook = await WebServer.StartAsync();
        await using var instrument = await OverheatedAsync(studio, broker.Port, hook.Port);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await AssertToldAsync(hook, "confirms all but notifications", $"Contact phone is not told of alarms: the broker does not confirm topic {Topic}, though it answers otherwise.");
        Assert.Equal(1, broker.Connections);

        // The first try, and after about 30 s perhaps a second.
        Assert.InRange(broker.Published.Count(topic => topic == Topic), 1, 3);
        Assert.Equal(0, await watch.StopAsync(Wanted));
    }

    [Fact]
    public async Task Where_the_broker_confirms_nothing_but_that_we_are_there_the_next_contact_hears_of_it_too()
    {
        using var broker = new UnacknowledgingBroker(topic => topic.EndsWith("/status", StringComparison.Ordinal));
        using var studio = new Studio();
        await using var hook = await WebServer.StartAsync();
        await using var instrument = await OverheatedAsync(studio, broker.Port, hook.Port);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await AssertToldAsync(hook, "confirms its status alone", "Contact phone is not told of alarms: no answer to publishing within 10 s.");
        Assert.Equal(0, await watch.StopAsync(Wanted));
    }

    [Fact]
    public async Task What_a_broker_says_when_it_refuses_steers_neither_the_log_nor_the_alarm()
    {
        using var broker = new UnacknowledgingBroker(
            _ => true, topic => topic == Topic ? 0x87 : null, "no\n2026-03-01 22:15:00 ERR forged\u001b[2J\u202egnihton");
        using var studio = new Studio();
        await using var hook = await WebServer.StartAsync();
        await using var instrument = await OverheatedAsync(studio, broker.Port, hook.Port);
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await AssertToldAsync(hook, "refuses with a forged line of log", $"refuses topic {Topic} (NotAuthorized: no 2026-03-01 22:15:00 ERR forged[2Jgnihton).");
        await Eventually.TrueAsync(() => watch.Output.Contains("forged[2Jgnihton", StringComparison.Ordinal), "the log has it", Wanted);
        Assert.DoesNotContain(watch.Output, letter => letter is '\u001b' or '\u202e');
        Assert.DoesNotContain(watch.Output.Split('\n'), line => line.StartsWith("2026-03-01 22:15:00 ERR", StringComparison.Ordinal));
    }

    /// <summary>A vat above its limit, a phone at the broker, and a webhook that is notified of what nobody has acknowledged for an hour.</summary>
    private static async Task<PtyInstrument> OverheatedAsync(Studio studio, int broker, int hook)
    {
        var instrument = await PtyInstrument.AskedAsync();
        studio.WriteBenchConfig(instrument.Port, $$"""{ "broker": "mqtt://127.0.0.1:{{broker}}" }""", alarms: """{ "overheat": { "onDelay": "1 s" } }""");
        studio.Add($$"""
            "contacts": [
              { "id": "phone", "way": "mqtt" },
              { "id": "hook", "way": "webhook", "url": "http://127.0.0.1:{{hook}}/vats", "after": "60 min" } ]
            """);
        await instrument.TellAsync("set T 52");
        await instrument.TellAsync("set ORP -705");
        await instrument.TellAsync("set PH 10.02");
        return instrument;
    }

    private static async Task AssertToldAsync(WebServer hook, string broker, string reason)
    {
        var since = Stopwatch.StartNew();
        await Eventually.TrueAsync(() => Told(hook, reason) && Told(hook, "limit 120"), "both are told", Wanted);
        FaultFigures.AtMost("unreachable contact", broker, "the next contact is told so, and of the overheat, after", since.Elapsed.TotalSeconds, Wanted.TotalSeconds, "s");
    }

    private static bool Told(WebServer hook, string words) =>
        hook.Requests.Any(request => Encoding.UTF8.GetString(request.Body).Contains(words, StringComparison.Ordinal));
}
