using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;
using VatWatch.Testing.Servers;

namespace VatWatch.SystemTests;

/// <summary>The built binary telling people: while everything around it fails, by the test verb, and about another watch that has gone.</summary>
public sealed class ContactTests
{
    private const string LimitC = "48.8888";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task A_disk_that_refuses_a_dead_broker_and_a_dead_mail_server_together_delay_no_evaluation_by_more_than_a_reading()
    {
        using var studio = new Studio();
        await using var hook = await WebServer.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        studio.WriteBenchConfig(instrument.Port, Dead("mqtt"), alarms: """{ "overheat": { "onDelay": "2 s" } }""");
        studio.Add($$"""
            "mail": { "server": "smtp://127.0.0.1:{{FreePort.Next()}}", "from": "vats@studio.example", "security": "none" },
            "contacts": [
              { "id": "phone", "way": "mqtt" },
              { "id": "dyer", "way": "mail", "address": "dyer@studio.example" },
              { "id": "hook", "way": "webhook", "url": "http://127.0.0.1:{{hook.Port}}/vats", "units": "si", "minimumPriority": "critical" } ]
            """);
        await instrument.TellAsync("set T 47.5");
        await instrument.TellAsync("set ORP -705");
        await instrument.TellAsync("set PH 10.02");
        await using var watch = VatWatchProcess.Start("run", "--config", studio.Config);
        await Eventually.TrueAsync(() => File.Exists(Path.Combine(studio.Data, "vatwatch.db")) && watch.Output.Contains("Watching", StringComparison.Ordinal), "it runs", Patience);
        await Task.Delay(TimeSpan.FromSeconds(2), TestContext.Current.CancellationToken);

        using (var disk = Lock(Path.Combine(studio.Data, "vatwatch.db")))
        {
            await instrument.TellAsync("ramp T 0.4");
            var told = await hook.WaitForAsync(1, Patience);
            Assert.Contains("°C, limit 48.9 °C", Encoding.UTF8.GetString(told[0].Body), StringComparison.Ordinal);
            Assert.False(disk.HasExited);
            await instrument.TellAsync("ramp T 0");
            disk.Kill();
            await disk.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        await Eventually.TrueAsync(() => Raised(studio) is not null, "the alarm gets to the disk", Patience);
        await Eventually.TrueAsync(() => Readings(studio).Count(reading => reading.Time > Raised(studio)) > 1, "the readings get to the disk", Patience);
        Assert.Equal(0, await watch.StopAsync(Patience));

        // The first reading at the limit begins the on-delay of 2 s; the first or second one after it must raise the alarm.
        var limit = double.Parse(LimitC, CultureInfo.InvariantCulture);
        var readings = Readings(studio);
        var crossed = readings.First(reading => reading.Value >= limit).Time;
        var late = readings.Where(reading => reading.Time >= crossed.AddSeconds(2)).Take(2).Last().Time;
        var raised = Raised(studio)!.Value;
        Assert.InRange(raised, crossed.AddSeconds(2), late);
    }

    [Fact]
    public async Task The_test_verb_says_what_each_server_answered_and_fails_when_one_did_not_take_it()
    {
        using var studio = new Studio();
        await using var mail = await MailServer.StartAsync();
        await using var hook = await WebServer.StartAsync();
        studio.WriteBenchConfig("/nowhere/tty", Dead("mqtt"));
        studio.Add($$"""
            "mail": { "server": "smtp://127.0.0.1:{{mail.Port}}", "from": "vats@studio.example", "security": "none" },
            "contacts": [
              { "id": "phone", "way": "mqtt" },
              { "id": "dyer", "name": "the dyer", "way": "mail", "address": "dyer@studio.example" },
              { "id": "hook", "way": "webhook", "url": "http://127.0.0.1:{{hook.Port}}/vats" } ]
            """);
        var one = await VatWatchProcess.RunAsync(Patience, "notify", "dyer", "--config", studio.Config);
        Assert.Equal((0, ""), (one.Code, one.Errors));
        Assert.Equal($"dyer (mail): sent; smtp://127.0.0.1:{mail.Port} took the mail for dyer@studio.example: Taken for delivery.", one.Output);
        Assert.Contains("Subject: Test from VatWatch at test-studio", Encoding.UTF8.GetString((await mail.WaitForAsync(1))[0].Raw), StringComparison.Ordinal);

        await mail.TellAsync("answer-recipient 550 no such mailbox");
        var all = await VatWatchProcess.RunAsync(Patience, "notify", "--all", "--config", studio.Config);
        Assert.Equal(1, all.Code);
        Assert.Equal($"hook (webhook): sent; http://127.0.0.1:{hook.Port} answered 204.", all.Output);
        Assert.Contains("phone (mqtt): NOT sent; mqtt://127.0.0.1:", all.Errors, StringComparison.Ordinal);
        Assert.Contains("the server refuses the recipient dyer@studio.example (550 no such mailbox)", all.Errors, StringComparison.Ordinal);

        Assert.Equal(64, (await VatWatchProcess.RunAsync(Patience, "notify", "--config", studio.Config)).Code);
        var unknown = await VatWatchProcess.RunAsync(Patience, "notify", "nobody", "--config", studio.Config);
        Assert.Equal(64, unknown.Code);
        Assert.Contains("wanted one of phone, dyer, hook", unknown.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_second_watch_on_another_machine_raises_an_alarm_when_the_first_is_killed_and_clears_it_when_it_is_back()
    {
        using var first = new Studio();
        using var second = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        first.WriteBenchConfig("/nowhere/tty", $$"""{ "broker": "mqtt://127.0.0.1:{{broker.Port}}" }""");
        File.WriteAllText(second.Config, File.ReadAllText(SourceTree.At("config", "second-watch.json"))
            .Replace("mqtt://broker.studio:1883", $"mqtt://127.0.0.1:{broker.Port}", StringComparison.Ordinal)
            .Replace("\"builtin\", \"listen\": \"127.0.0.1:1884\"", $"\"mqtt://127.0.0.1:{broker.Port}\"", StringComparison.Ordinal)
            .Replace("hill-studio", "test-studio", StringComparison.Ordinal)
            .Replace("http://127.0.0.1:8081", second.Url, StringComparison.Ordinal)
            .Replace("\"data\": \"data\"", $"\"data\": {JsonSerializer.Serialize(second.Data)}", StringComparison.Ordinal));
        using var phone = await MosquittoSub.StartAsync(new(broker.Port), "vatwatch/far-shed/daemon/#");
        await using var listener = VatWatchProcess.Start("run", "--config", second.Config);
        await Eventually.TrueAsync(() => listener.Output.Contains("is listened for", StringComparison.Ordinal), "the second watch listens", Patience);
        await using (var watch = VatWatchProcess.Start("run", "--config", first.Config))
        {
            await Eventually.TrueAsync(() => broker.Log.Contains("'vatwatch/test-studio/heartbeat'", StringComparison.Ordinal), "the first watch beats", Patience);
            await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
            Assert.DoesNotContain(phone.Messages, message => message.Topic.Contains("watch-silent", StringComparison.Ordinal));
            await watch.KillAsync();
        }

        var alarm = await phone.WaitForAsync("vatwatch/far-shed/daemon/alarm/watch-silent.test-studio", message => message.Payload.Contains("\"unacknowledged\"", StringComparison.Ordinal), Patience);
        Assert.Contains("\"priority\":\"critical\"", alarm.Payload, StringComparison.Ordinal);
        var sentence = await phone.WaitForAsync("vatwatch/far-shed/daemon/notification", message => message.Payload.Contains("test-studio", StringComparison.Ordinal), Patience);
        Assert.Contains("has stopped", sentence.Payload, StringComparison.Ordinal);
        await using (var again = VatWatchProcess.Start("run", "--config", first.Config))
        {
            await phone.WaitForAsync("vatwatch/far-shed/daemon/alarm/watch-silent.test-studio", message => message.Payload.Contains("\"returned-unacknowledged\"", StringComparison.Ordinal), TimeSpan.FromSeconds(120));
        }
    }

    private static string Dead(string scheme) => string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "{{scheme}}://127.0.0.1:{{FreePort.Next()}}" }""");

    /// <summary>Takes the database for itself, as a disk that answers but refuses.</summary>
    private static Process Lock(string database)
    {
        const string Script = "import sqlite3,sys; c=sqlite3.connect(sys.argv[1], isolation_level=None, timeout=30); c.execute('BEGIN EXCLUSIVE'); print('locked', flush=True); sys.stdin.read()";
        var process = Process.Start(new ProcessStartInfo("/usr/bin/python3", ["-c", Script, database]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
        Assert.Equal("locked", process.StandardOutput.ReadLine());
        return process;
    }

    private static DateTimeOffset? Raised(Studio studio)
    {
        var line = Sql(studio, "SELECT utc FROM alarm_change WHERE alarm = 'overheat' AND state = 'unacknowledged' ORDER BY id LIMIT 1").SingleOrDefault();
        return line is null ? null : DateTimeOffset.UnixEpoch.AddTicks(long.Parse(line, CultureInfo.InvariantCulture));
    }

    private static List<(DateTimeOffset Time, double Value)> Readings(Studio studio) =>
    [
        .. Sql(studio, "SELECT utc || ' ' || value FROM measurement_plain WHERE probe = 'liquor' AND value IS NOT NULL ORDER BY utc").Select(line => line.Split(' '))
            .Select(parts => (DateTimeOffset.Parse(parts[0], CultureInfo.InvariantCulture), double.Parse(parts[1], CultureInfo.InvariantCulture))),
    ];

    /// <summary>One column, by another program than ours.</summary>
    private static List<string> Sql(Studio studio, string query)
    {
        const string Script = "import sqlite3,sys; [print(row[0]) for row in sqlite3.connect('file:'+sys.argv[1]+'?mode=ro', uri=True, timeout=10).execute(sys.argv[2])]";
        var run = Task.Run(() => ToolRun.RequireAsync("/usr/bin/python3", ["-c", Script, Path.Combine(studio.Data, "vatwatch.db"), query])).GetAwaiter().GetResult();
        return [.. run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries)];
    }
}
