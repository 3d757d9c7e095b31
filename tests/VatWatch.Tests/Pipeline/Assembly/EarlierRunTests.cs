using System.Text;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Alarms.Rules;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Configuration;
using VatWatch.Probes.Simulation;
using VatWatch.Store;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Pipeline.Assembly;

/// <summary>What a run takes up of the alarms of the one before it.</summary>
public sealed class EarlierRunTests : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("earlier-").FullName;
    private readonly FakeTimeProvider _time = new(new(2026, 3, 1, 22, 15, 0, TimeSpan.Zero));
    private readonly List<AlarmStatus> _shown = [];
    private readonly VatWatcher _watcher;
    private readonly DaemonWatcher _daemon = new([], AlarmSettings.ReadDaemon(null));
    private readonly WatchClock _clock;
    private WatchStore _store = null!;

    public EarlierRunTests()
    {
        _clock = new(_time);
        var faults = new ConfigFaults();
        var root = ConfigFile.Parse(Encoding.UTF8.GetBytes(Configuration), faults)!;
        var plan = new WatchConfigurationReader(ProbeCatalog.Of([new SimulationBusKind()], [new SimulatedDriver()])).Read(root);
        Assert.Empty(faults.All);
        _watcher = new(plan.Vats[0], plan.Units);
    }

    public async ValueTask InitializeAsync()
    {
        _store = WatchStore.Open(_folder, new StoreOptions(), _time, NullLogger<WatchStore>.Instance);
        await _store.WriteAsync(
            work =>
            {
                AlarmJournal.Append(work, Kept("overheat", AlarmState.Acknowledged));
                AlarmJournal.Append(work, Kept("overheat-forecast", AlarmState.OutOfService));
                return 0;
            },
            TestContext.Current.CancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        await _store.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public void Alarms_of_a_store_that_cannot_be_read_at_the_start_are_taken_up_when_it_can()
    {
        var isThere = false;
        var run = new EarlierRun(() => isThere ? _store.OpenReader() : null, [_watcher], _daemon, _shown.Add, isSimulation: false);
        run.Restore(new NotificationRouter([]), _clock.Now());
        Assert.False(run.IsTakenUp);
        Assert.Equal(AlarmState.Normal, State("overheat"));
        _shown.Clear();

        run.RestoreLate(work => work(), _clock);
        Assert.Empty(_shown);
        isThere = true;
        run.RestoreLate(work => work(), _clock);

        Assert.True(run.IsTakenUp);
        Assert.Equal((AlarmState.Acknowledged, AlarmState.OutOfService), (State("overheat"), State("overheat-forecast")));
        Assert.Equal(["overheat", "overheat-forecast"], _shown.Select(status => status.Alarm.Value).Order());
    }

    [Fact]
    public void A_fast_simulation_closes_the_alarms_of_an_earlier_one_and_tells_nobody()
    {
        var run = new EarlierRun(_store.OpenReader, [_watcher], _daemon, _shown.Add, isSimulation: true);
        run.Restore(new NotificationRouter([]), _clock.Now());
        Assert.All(_watcher.Alarms, alarm => Assert.Equal(AlarmState.Normal, alarm.State));

        var changes = _watcher.Tick(_clock.Now()).Changes;

        Assert.Equal([("overheat", AlarmState.Acknowledged), ("overheat-forecast", AlarmState.OutOfService)], changes.Select(change => (change.Status.Alarm.Value, change.Before)).Order());
        Assert.All(changes, change => Assert.Equal((AlarmState.Normal, false), (change.Status.State, change.Announce)));
        Assert.EndsWith("is over: the simulated vat was begun anew.", changes[0].Status.Text.In(DisplayUnits.Si), StringComparison.Ordinal);
        Assert.Empty(_watcher.Tick(_clock.Now()).Changes);
    }

    private AlarmState State(string alarm) => _watcher.Alarms.Single(status => status.Alarm.Value == alarm).State;

    private AlarmChange Kept(string alarm, AlarmState state)
    {
        var now = _clock.Now();
        var status = new AlarmStatus
        {
            Vat = new("madder-lane"),
            Alarm = new(alarm),
            State = state,
            Priority = AlarmPriority.High,
            Since = now,
            Text = "It stands.",
            Action = "Look at it.",
            AcknowledgedBy = state == AlarmState.Acknowledged ? "Ada" : null,
            AcknowledgedAt = state == AlarmState.Acknowledged ? now.Utc : null,
            SetAside = state == AlarmState.OutOfService ? new("Ada", now.Utc, true, "probe sent for repair", null) : null,
            Stands = true,
        };
        return new(AlarmState.Unacknowledged, status, now, "Ada", Announce: false) { Via = "page" };
    }

    private const string Configuration = """
        {
          "site": "hill-studio", "display": "si", "data": "data",
          "buses": { "demo": { "kind": "simulation", "start": "45 °C", "ambient": "18 °C", "heater": "1500 W" } },
          "vats": [ {
            "id": "madder-lane", "name": "Madder Lane vat", "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
            "temperature": { "low": "38 °C", "high": "48 °C", "limit": "49 °C" },
            "probes": [ { "id": "liquor", "measures": "temperature", "bus": "demo", "driver": "simulated", "every": "1 s" } ]
          } ]
        }
        """;
}
