using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Daemon;
using VatWatch.Calibration;
using VatWatch.Notifications;
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

/// <summary>The whole line from probe to phone, made from a configuration: the one place where stages are joined.</summary>
public sealed class WatchPipeline : IAsyncDisposable
{
    /// <summary>Without a beat of the watch stage for this long nothing is judged, and the heartbeat on the broker stops.</summary>
    private static readonly TimeSpan StillWatching = TimeSpan.FromSeconds(20);

    /// <summary>Long, because alarms go out while a disk does not answer, and a new start would not mend it.</summary>
    private static readonly TimeSpan DiskLimit = TimeSpan.FromMinutes(5);

    /// <summary>Longer than the longest wait before another try, and the try. While connected, links beat with each ping.</summary>
    private static readonly TimeSpan NetworkLimit = TimeSpan.FromMinutes(15);

    private readonly IReadOnlyList<BusWithProbes> _benches;
    private readonly IReadOnlyList<IStage> _stages;
    private readonly DaemonWatcher _daemon;
    private readonly WatchStage _watch;
    private readonly JournalStage _journal;
    private readonly NotificationRouter _contacts;

    private WatchPipeline(
        IReadOnlyList<BusWithProbes> benches,
        IReadOnlyList<IStage> stages,
        DaemonWatcher daemon,
        WatchStage watch,
        JournalStage journal,
        NotificationRouter contacts,
        LiveFeed feed,
        AlarmService alarms,
        SessionService sessions,
        PlanService plans,
        MqttLink link,
        ProbeCounters counters)
    {
        _benches = benches;
        _stages = stages;
        _daemon = daemon;
        _watch = watch;
        _journal = journal;
        _contacts = contacts;
        Feed = feed;
        Alarms = alarms;
        Sessions = sessions;
        Plans = plans;
        Link = link;
        Counters = counters;
    }

    /// <summary>The newest of everything.</summary>
    public ILiveFeed Feed { get; }

    /// <summary>What people may do with alarms.</summary>
    public AlarmService Alarms { get; }

    /// <summary>Where the log book is written.</summary>
    public SessionService Sessions { get; }

    /// <summary>Where plans are kept.</summary>
    public PlanService Plans { get; }

    /// <summary>The link to the broker.</summary>
    public MqttLink Link { get; }

    /// <summary>What happened on the buses.</summary>
    public ProbeCounters Counters { get; }

    /// <summary>Readings lost because the watch stage did not keep up.</summary>
    public long ReadingsDropped => _watch.Dropped;

    /// <summary>Alarm changes and notifications lost because the disk was away for too long.</summary>
    public long AlarmsLost => _journal.Lost + _contacts.Dropped;

    /// <summary>Gives a reading as a bus would; for measuring what the line carries.</summary>
    internal void Enqueue(Reading reading) => _watch.Enqueue(reading);

    /// <summary>How the ways to contacts do, by contact and word of the way.</summary>
    public IReadOnlyList<(string Contact, string Way, ContactHealth Health)> Contacts =>
        [.. _contacts.Senders.Select(sender => (sender.Contact, sender.Way, sender.Health))];

    /// <summary>Sentences of each contact held back by the flood limit.</summary>
    public IReadOnlyList<(string Contact, long HeldBack)> HeldBack => [.. _contacts.HeldBack];

    /// <summary>Makes everything; nothing runs yet. Alarms are taken up where the store left them. Followers run as stages beside the others.</summary>
    public static WatchPipeline Build(
        WatchConfiguration configuration,
        MqttOptions mqtt,
        ContactTable contacts,
        IVatPicture? picture,
        WatchStore store,
        WatchClock clock,
        ILoggerFactory logs,
        params IReadOnlyList<IStoreFollower> followers)
    {
        var clockMonitor = new ClockMonitor(clock, logs.CreateLogger<ClockMonitor>());
        clockMonitor.Evaluate();
        var feed = new LiveFeed(configuration.Vats.Select(vat => vat.Definition), clock);
        var link = new MqttLink(mqtt, configuration.Site, configuration.Units, TimeProvider.System, logs.CreateLogger<MqttLink>());
        var router = NotificationRouter.Make(contacts, configuration.Site, picture, store, link, logs);
        var names = configuration.Vats.ToDictionary(vat => vat.Definition.Id, vat => vat.Definition.Name);
        var journal = new JournalStage(
            new AlarmStore(store),
            feed.Show,
            link,
            router,
            vat => names.GetValueOrDefault(vat, vat.Value),
            configuration.Units,
            clock,
            TimeProvider.System,
            logs.CreateLogger<JournalStage>());
        var counters = new ProbeCounters();
        var shelf = new CalibrationCache();
        var calibrations = new CalibrationLoader(store, shelf, logs.CreateLogger<CalibrationLoader>());
        EarlierRun.Load(calibrations, store);
        var dueCalibrations = new CalibrationSignals(configuration.Vats, shelf, TimeProvider.System, () => clock.Trusted);
        var storeSignals = new StoreSignals(() => store.Health, TimeProvider.System);
        var farWatches = configuration.Watches
            .Select(watch => new PeerMonitor(watch, configuration.Site, new MqttTimings(), TimeProvider.System, logs.CreateLogger<PeerMonitor>())).ToList();
        var daemon = new DaemonWatcher(
            [
                storeSignals.Signals,
                () => DaemonSignals.Of(link),
                () => DaemonSignals.Of(clock),
                () => DaemonSignals.Of(counters, configuration.Vats),
                () => DaemonSignals.Of(router.Senders),
                () => DaemonSignals.Of(farWatches),
                dueCalibrations.Signals,
                () => followers.SelectMany(follower => follower.Signals),
            ],
            configuration.DaemonAlarms);
        var speaksForProbes = configuration.DaemonAlarms.For(BusLostAlarm.Kind.Word).Enabled;
        bool isBusLost(BusId bus) => speaksForProbes && counters.Away.GetValueOrDefault(bus) is not null;
        var known = new KnownTemperatures(clock);
        var watchers = configuration.Vats.Select(vat => new VatWatcher(vat, configuration.Units, shelf, isBusLost) { Known = known }).ToList();
        var learned = new LearnedHeatCache();
        var conditions = new ConditionRecorder(store, configuration.Store.KeepReadings);
        var outputs = new WatchOutputs(store.Enqueue, link, feed, conditions.Enqueue, journal, learned);
        var watch = new WatchStage(watchers, daemon, outputs, clock, configuration.Speed, logs.CreateLogger<WatchStage>());
        var alarms = new AlarmService(watch, TimeProvider.System, logs.CreateLogger<AlarmService>());
        var learning = new LearningRecorder(
            store,
            [.. configuration.Vats.Select(vat => vat.Definition)],
            learned,
            (vat, baseline) => watch.Tell(vat, watcher => watcher.Baseline = baseline),
            TimeProvider.System);
        var benches = BusWithProbes.Build(configuration, clock, known);
        var sessions = new SessionService(
            store,
            configuration.Vats.ToDictionary(vat => vat.Definition.Id, vat => vat.Definition.VolumeLitres),
            (entry, session) =>
            {
                if (entry.Act() is { } act)
                {
                    watch.Tell(entry.Vat, watcher => watcher.Note(act));
                }

                SimulatedHands.Do(benches, entry, session);
            },
            change =>
            {
                learning.LogBookChanged();
                feed.Show(change);
            },
            clock,
            clock.Zone,
            logs.CreateLogger<SessionService>());
        var plans = new PlanService(store, names.Keys.ToHashSet(), clock, clock.Zone, logs.CreateLogger<PlanService>());
        var reminders = new PlanReminders(store.OpenReader, feed, (vat, due) => watch.Tell(vat, watcher => watcher.HeaterDue = due), clock.Zone, TimeProvider.System);
        var heartbeat = new Heartbeat([.. configuration.Vats.Select(vat => vat.Definition.Id)], () => watch.SinceBeat < StillWatching);
        EarlierRun.Restore(store, watchers, daemon, feed, link, router, clock.Now());

        IReadOnlyList<IStage> stages =
        [
            new LoopStage("store", DiskLimit, store.RunAsync),
            journal,
            new LoopStage("mqtt", NetworkLimit, (cancel, pulse) => link.RunAsync(heartbeat, new TopicCommands(alarms, WriteAsync), cancel, pulse)),
            .. router.Senders.Select(sender => new LoopStage($"contact {sender.Contact}", NetworkLimit, sender.RunAsync)),
            .. farWatches.Select(far => new LoopStage($"watch of {far.Site}", NetworkLimit, far.RunAsync)),
            Periodic("calibrations", TimeSpan.FromSeconds(15), DiskLimit, _ => Done(calibrations.Load)),
            Periodic("learning", TimeSpan.FromSeconds(5), DiskLimit, learning.RunOnceAsync, learning.KeepAsync),
            Periodic("plans", TimeSpan.FromSeconds(10), DiskLimit, _ => Done(reminders.RunOnce)),
            Periodic("conditions", TimeSpan.FromSeconds(2), DiskLimit, conditions.WriteAsync, conditions.WriteAsync),
            .. followers,
            watch,
            Periodic("clock", TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(30), _ => Done(clockMonitor.Evaluate)),
            .. benches.Select(bench => new BusStage(bench, clock, counters, watch.Enqueue, logs)),
        ];
        return new WatchPipeline(benches, stages, daemon, watch, journal, router, feed, alarms, sessions, plans, link, counters);

        async Task<string?> WriteAsync(EntryDraft draft, CancellationToken cancel) => (await sessions.WriteAsync(draft, cancel)).Refused;

        PeriodicStage Periodic(string name, TimeSpan period, TimeSpan limit, Func<CancellationToken, Task> turn, Func<CancellationToken, Task>? lastTurn = null) =>
            new(name, period, limit, turn, TimeProvider.System, logs.CreateLogger<PeriodicStage>()) { LastTurn = lastTurn };
    }

    private static Task Done(Action turn)
    {
        turn();
        return Task.CompletedTask;
    }

    /// <summary>Every stage, in order of start.</summary>
    internal IReadOnlyList<IStage> Stages => _stages;

    /// <summary>The supervisor that runs the stages.</summary>
    public StageSupervisor Supervise(IHostApplicationLifetime lifetime, ILogger<StageSupervisor> log)
    {
        var supervisor = new StageSupervisor(_stages, new StageOptions(), TimeProvider.System, lifetime, log);
        supervisor.StageFailed += _daemon.NoteRestart;
        return supervisor;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var bench in _benches)
        {
            await bench.Bus.DisposeAsync();
        }
    }
}
