using System.Text.Json;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Journal;
using VatWatch.Daemon.Tests.Web;
using VatWatch.Daemon.Web;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs.Alarms;

/// <summary>The verb on a real store, without a daemon and beside the pages of one.</summary>
public sealed class AlarmsVerbTests : IDisposable
{
    private static readonly string[] Shelve =
        ["alarms", "shelve", "--vat", "weld-60", "--alarm", "overheat", "--by", "Ada", "--minutes", "20", "--reason", "probe out"];

    private readonly DateTimeOffset _now = DateTimeOffset.UtcNow;
    private readonly Bench _bench = new();

    [Fact]
    public async Task Without_a_daemon_it_lists_how_things_stood_and_says_so()
    {
        await FileAsync();
        var (code, output, error) = await _bench.RunAsync(["alarms", "--journal", "--week"]);
        Assert.Equal((0, ""), (code, error));
        Assert.StartsWith($"No VatWatch runs on '{_bench.Data}': this is how things stood when it stopped.", output, StringComparison.Ordinal);
        Assert.Contains("critical  weld-60 overheat  acknowledged by Ada since", output, StringComparison.Ordinal);
        Assert.Contains("Unplug the heater.", output, StringComparison.Ordinal);
        Assert.Contains("weld-60 overheat: acknowledged by Ada (mqtt). Too hot: 51.0 °C.", output, StringComparison.Ordinal);
        Assert.Contains("note by Bea (verb): the lid was shut", output, StringComparison.Ordinal);
        Assert.Contains("Time to acknowledge  4 min in the middle, 4 min at most", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Programs_get_the_same_as_JSON()
    {
        await FileAsync();
        var (code, output, _) = await _bench.RunAsync(["alarms", "--journal", "--week", "--json"]);
        var json = JsonDocument.Parse(output).RootElement;
        Assert.Equal((0, false), (code, json.GetProperty("daemonRuns").GetBoolean()));
        Assert.Equal("overheat", Assert.Single(json.GetProperty("alarms").EnumerateArray()).GetProperty("alarm").GetString());
        Assert.Equal([null, "mqtt", "verb"], json.GetProperty("journal").EnumerateArray().Select(line => line.GetProperty("via").GetString()));
        Assert.Equal(240, json.GetProperty("week").GetProperty("medianSecondsToAcknowledge").GetDouble());
    }

    [Fact]
    public async Task The_journal_is_that_of_the_time_asked_for()
    {
        await FileAsync();
        var (_, output, _) = await _bench.RunAsync(["alarms", "--journal", "--from", "2020-01-01T00:00Z", "--to", "2020-01-02T00:00Z"]);
        Assert.Contains("The journal has nothing of that time.", output, StringComparison.Ordinal);
        Assert.Equal(64, (await _bench.RunAsync(["alarms", "--journal", "--from", "yesterday-ish"])).Code);
        Assert.Equal(64, (await _bench.RunAsync(["alarms", "--journal", "--from", "2020-01-02T00:00Z", "--to", "2020-01-01T00:00Z"])).Code);
    }

    [Fact]
    public async Task Without_a_store_or_a_daemon_it_says_so()
    {
        var (listed, _, why) = await _bench.RunAsync(["alarms"]);
        Assert.Equal(1, listed);
        Assert.Contains("there is no vatwatch.db", why, StringComparison.Ordinal);
        await FileAsync();
        var (code, _, error) = await _bench.RunAsync(Shelve);
        Assert.Equal(1, code);
        Assert.Contains("no VatWatch runs on the data folder", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_daemon_does_it_and_its_answer_is_printed()
    {
        await using var daemon = Daemon();
        await using var pages = await PagesAsync();

        var (code, output, error) = await _bench.RunAsync(Shelve);

        Assert.Equal((0, "overheat of weld-60 is shelved for 20 min.", ""), (code, output.TrimEnd(), error));
        Assert.Equal(
            new AlarmAct(AlarmActKind.Shelve, new("weld-60"), new("overheat"), "Ada", "verb") { For = TimeSpan.FromMinutes(20), Text = "probe out" },
            Assert.Single(pages.Desk.Taken));
    }

    [Fact]
    public async Task A_note_about_the_vat_needs_no_alarm()
    {
        await using var daemon = Daemon();
        await using var pages = await PagesAsync();
        var (code, output, _) = await _bench.RunAsync(["alarms", "note", "--vat", "weld-60", "--by", "Ada", "--text", "lid shut"]);
        Assert.Equal((0, "The note is in the journal."), (code, output.TrimEnd()));
        Assert.Equal("lid shut", Assert.Single(pages.Desk.Taken).Text);
    }

    [Fact]
    public async Task What_the_daemon_has_nothing_to_do_for_is_said()
    {
        await using var daemon = Daemon();
        await using var pages = await PagesAsync();
        pages.Desk.Answer = _ => Task.FromResult(false);
        var (code, output, error) = await _bench.RunAsync(["alarms", "acknowledge", "--vat", "weld-60", "--alarm", "overheat", "--by", "Ada"]);
        Assert.Equal((1, "", "vatwatch: nothing was done: vat 'weld-60' has no alarm 'overheat' that waits for an acknowledgement."), (code, output, error.TrimEnd()));
    }

    [Fact]
    public async Task A_daemon_that_is_still_starting_is_waited_for()
    {
        await using var daemon = Daemon();
        var asked = _bench.RunAsync(["alarms", "note", "--vat", "weld-60", "--by", "Ada", "--text", "lid shut"]);
        await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        await using var pages = await PagesAsync();
        var (code, output, _) = await asked;
        Assert.Equal((0, "The note is in the journal."), (code, output.TrimEnd()));
    }

    [Fact]
    public async Task A_daemon_without_a_socket_is_said_not_to_answer()
    {
        await using var daemon = Daemon();
        var (code, _, error) = await _bench.RunAsync(Shelve);
        Assert.Equal(1, code);
        Assert.Contains($"does not answer on '{LocalSocket.PathIn(_bench.Data)}'", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0", "the time on the shelf is 0; wanted 1 to 1440 minutes.")]
    [InlineData("soon", "soon")]
    public async Task A_request_that_is_not_whole_is_wrong_usage(string minutes, string told)
    {
        var (code, _, error) = await _bench.RunAsync([.. Shelve.Select(word => word == "20" ? minutes : word)]);
        Assert.Equal(64, code);
        Assert.Contains(told, error, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private Task<RunningPages> PagesAsync() => RunningPages.StartAsync(new Scenes().Warming(), local: LocalSocket.TryBind(_bench.Data, out _));

    private WatchStore Daemon() => WatchStore.Open(_bench.Data, new(), TimeProvider.System, NullLogger<WatchStore>.Instance);

    /// <summary>An overheat that Ada acknowledged after 4 min, and a note.</summary>
    private async Task FileAsync()
    {
        await using var store = Daemon();
        var entered = new Stamp(_now.AddMinutes(-10), TimeSpan.Zero, true);
        var status = new AlarmStatus
        {
            Vat = new("weld-60"),
            Alarm = new("overheat"),
            State = AlarmState.Unacknowledged,
            Priority = AlarmPriority.Critical,
            Since = entered,
            Text = "Too hot: 51.0 °C.",
            Action = "Unplug the heater.",
            Stands = true,
        };
        var seen = status with { State = AlarmState.Acknowledged, AcknowledgedBy = "Ada", AcknowledgedAt = _now.AddMinutes(-6) };
        AlarmChange[] changes =
        [
            new(AlarmState.Normal, status, entered, null, true),
            new(AlarmState.Unacknowledged, seen, entered.Plus(TimeSpan.FromMinutes(4)), "Ada", false) { Via = "mqtt" },
            new(AlarmState.Acknowledged, seen, entered.Plus(TimeSpan.FromMinutes(5)), "Bea", false) { Via = "verb", Note = "the lid was shut" },
        ];
        await store.WriteAsync(
            work =>
            {
                foreach (var change in changes)
                {
                    AlarmJournal.Append(work, change);
                }

                return 0;
            },
            TestContext.Current.CancellationToken);
    }
}
