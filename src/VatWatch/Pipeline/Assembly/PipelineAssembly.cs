using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Daemon;
using VatWatch.Calibration;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Notifications.Peers;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Stages;
using VatWatch.Pipeline.Supervision;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>Joins the stages of a <see cref="WatchPipeline"/>, each made from those before it; used once.</summary>
internal sealed class PipelineAssembly(
    WatchConfiguration configuration,
    MqttOptions mqtt,
    ContactTable contacts,
    IVatPicture? picture,
    WatchStore store,
    WatchClock clock,
    ILoggerFactory logs,
    Func<DaemonSignal>? pages,
    IReadOnlyList<IStoreFollower> followers)
{
    /// <summary>Without a beat of the watch stage for this long nothing is judged, and the heartbeat on the broker stops.</summary>
    private static readonly TimeSpan StillWatching = TimeSpan.FromSeconds(20);

    /// <summary>Long, because alarms go out while a disk does not answer, and a new start would not mend it.</summary>
    private static readonly TimeSpan DiskLimit = TimeSpan.FromMinutes(5);

    /// <summary>Longer than the longest wait before another try, and the try. While connected, links beat with each ping.</summary>
    private static readonly TimeSpan NetworkLimit = TimeSpan.FromMinutes(15);

    // Whether UTC is to be believed is known before anything takes a label from the clock.
    private readonly ClockMonitor _clockMonitor = Evaluated(new(clock, logs.CreateLogger<ClockMonitor>()));
    private readonly LiveFeed _feed = new(configuration.Vats.Select(vat => vat.Definition), clock);
    private readonly MqttLink _link = new(mqtt, configuration.Site, configuration.Units, TimeProvider.System, logs.CreateLogger<MqttLink>());
    private readonly Dictionary<VatId, VatDefinition> _vats = configuration.Vats.ToDictionary(vat => vat.Definition.Id, vat => vat.Definition);
    private readonly ProbeCounters _counters = new();
    private readonly CalibrationCache _calibrations = new();
    private readonly KnownTemperatures _known = new(clock);
    private readonly LearnedHeatCache _learned = new();

    private readonly IReadOnlyList<PeerMonitor> _peers =
        [.. configuration.Watches.Select(watch => new PeerMonitor(watch, configuration.Site, new MqttTimings(), TimeProvider.System, logs.CreateLogger<PeerMonitor>()))];

    /// <summary>Makes everything; nothing runs yet. Alarms are taken up where the store left them.</summary>
    public WatchPipeline Build()
    {
        var router = NotificationRouter.Make(contacts, configuration.Site, picture, store, _link, logs);
        var journal = Journal(router);
        var calibrations = new CalibrationLoader(store, _calibrations, logs.CreateLogger<CalibrationLoader>());
        EarlierRun.Load(calibrations, store);
        var daemon = Daemon(router);
        var watchers = Watchers();
        var conditions = new ConditionRecorder(store, configuration.Store.KeepReadings);
        var watch = new WatchStage(
            watchers, daemon, new(store.Enqueue, _link, _feed, conditions.Enqueue, journal, _learned), clock, configuration.Speed, logs.CreateLogger<WatchStage>());
        var alarms = new AlarmService(watch, TimeProvider.System, logs.CreateLogger<AlarmService>());
        var learning = Learning(watch);
        var plans = new PlanService(store, _vats.Keys.ToHashSet(), clock, clock.Zone, logs.CreateLogger<PlanService>());
        var reminders = Reminders(watch, plans);
        var buses = BusWithProbes.Build(configuration, clock, _known);
        var sessions = Sessions(watch, learning, buses);
        var earlier = new EarlierRun(() => EarlierRun.OpenReader(store), watchers, daemon, Show, isSimulation: configuration.Speed > 1);
        earlier.Restore(router, clock.Now());
        IReadOnlyList<IStage> stages =
        [
            new LoopStage("store", DiskLimit, store.RunAsync),
            journal,
            Topics(watch, alarms, sessions),
            .. router.Senders.Select(sender => new LoopStage($"contact {sender.Contact}", NetworkLimit, sender.RunAsync)),
            .. _peers.Select(peer => new LoopStage($"watch of {peer.Site}", NetworkLimit, peer.RunAsync)),
            Periodic("calibrations", TimeSpan.FromSeconds(15), DiskLimit, _ => Done(calibrations.Load)),
            Periodic("learning", TimeSpan.FromSeconds(5), DiskLimit, learning.RunOnceAsync, learning.KeepAsync),
            Periodic("plans", TimeSpan.FromSeconds(10), DiskLimit, reminders.RunOnceAsync),
            Periodic("conditions", TimeSpan.FromSeconds(2), DiskLimit, conditions.WriteAsync, conditions.WriteAsync),
            .. followers,
            .. earlier.IsTakenUp ? Array.Empty<IStage>() : [Periodic("earlier run", TimeSpan.FromSeconds(2), DiskLimit, _ => Done(() => earlier.RestoreLate(watch.Tell, clock)))],
            watch,
            Periodic("clock", TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(30), _ => Done(_clockMonitor.Evaluate)),
            .. buses.Select(bus => new BusStage(bus, clock, _counters, watch.Enqueue, logs)),
        ];
        return new(buses, stages, daemon, watch, journal, router)
        {
            Feed = _feed,
            Alarms = alarms,
            Sessions = sessions,
            Plans = plans,
            Link = _link,
            Counters = _counters,
        };
    }

    private void Show(Alarms.AlarmStatus status)
    {
        _feed.Show(status);
        _link.Enqueue(status);
    }

    private static ClockMonitor Evaluated(ClockMonitor monitor)
    {
        monitor.Evaluate();
        return monitor;
    }

    private JournalStage Journal(NotificationRouter router) => new(
        new AlarmStore(store),
        _feed.Show,
        _link,
        router,
        vat => _vats.GetValueOrDefault(vat)?.Name ?? vat.Value,
        configuration.Units,
        clock,
        TimeProvider.System,
        logs.CreateLogger<JournalStage>());

    /// <summary>The alarms of the daemon itself, from what each part says of itself.</summary>
    private DaemonWatcher Daemon(NotificationRouter router) => new(
        [
            new StoreSignals(() => store.Health, TimeProvider.System).Signals,
            () => DaemonSignals.Of(_link),
            () => DaemonSignals.Of(clock),
            () => DaemonSignals.Of(_counters, configuration.Vats),
            () => DaemonSignals.Of(router.Senders),
            () => DaemonSignals.Of(_peers),
            new CalibrationSignals(configuration.Vats, _calibrations, TimeProvider.System, () => clock.Trusted).Signals,
            () => pages is null ? [] : [pages()],
            () => followers.SelectMany(follower => follower.Signals),
        ],
        configuration.DaemonAlarms);

    private List<VatWatcher> Watchers()
    {
        var speaksForProbes = configuration.DaemonAlarms.For(BusLostAlarm.Kind.Word).Enabled;
        return
        [
            .. configuration.Vats.Select(vat => new VatWatcher(
                vat, configuration.Units, _calibrations, bus => speaksForProbes && _counters.Away.GetValueOrDefault(bus) is not null) { Known = _known }),
        ];
    }

    private LearningRecorder Learning(WatchStage watch) =>
        new(store, [.. _vats.Values], _learned, (vat, baseline) => watch.Tell(vat, watcher => watcher.Baseline = baseline), TimeProvider.System);

    /// <summary>The log book; what is written goes to the judgement of the vat, and to the hands of a simulated one.</summary>
    private SessionService Sessions(WatchStage watch, LearningRecorder learning, IReadOnlyList<BusWithProbes> buses) => new(
        store,
        _vats.ToDictionary(vat => vat.Key, vat => vat.Value.VolumeLitres),
        (entry, session) =>
        {
            if (entry.Act() is { } act)
            {
                watch.Tell(entry.Vat, watcher => watcher.Note(act));
            }

            SimulatedHands.Do(buses, entry, session);
        },
        change =>
        {
            learning.LogBookChanged();
            _feed.Show(change);
        },
        clock,
        clock.Zone,
        logs.CreateLogger<SessionService>(),
        configuration.Units);

    private PlanReminders Reminders(WatchStage watch, PlanService plans) =>
        new(store.OpenReader, _feed, (vat, due) => watch.Tell(vat, watcher => watcher.HeaterDue = due), plans.KeepAsync, clock.Zone, TimeProvider.System);

    /// <summary>The link to the broker: topics out, commands in, and a heartbeat for as long as somebody judges.</summary>
    private LoopStage Topics(WatchStage watch, AlarmService alarms, SessionService sessions)
    {
        var heartbeat = new Heartbeat([.. _vats.Keys], () => watch.SinceTick < StillWatching);
        var commands = new TopicCommands(alarms, async (draft, cancel) => (await sessions.WriteAsync(draft, cancel)).Refused);
        return new("mqtt", NetworkLimit, (cancel, pulse) => _link.RunAsync(heartbeat, commands, cancel, pulse));
    }

    private PeriodicStage Periodic(string name, TimeSpan period, TimeSpan limit, Func<CancellationToken, Task> turn, Func<CancellationToken, Task>? lastTurn = null) =>
        new(name, period, limit, turn, TimeProvider.System, logs.CreateLogger<PeriodicStage>()) { LastTurn = lastTurn };

    private static Task Done(Action turn)
    {
        turn();
        return Task.CompletedTask;
    }
}
