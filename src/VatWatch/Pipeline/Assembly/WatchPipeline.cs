using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Daemon;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mail;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Stages;
using VatWatch.Pipeline.Supervision;
using VatWatch.Readings;
using VatWatch.Store;

namespace VatWatch.Pipeline.Assembly;

/// <summary>The whole line from probe to phone, made from a configuration: see <see cref="PipelineAssembly"/> for how its stages are joined.</summary>
public sealed class WatchPipeline : IAsyncDisposable
{
    private readonly IReadOnlyList<BusWithProbes> _buses;
    private readonly DaemonWatcher _daemon;
    private readonly WatchStage _watch;
    private readonly JournalStage _journal;
    private readonly NotificationRouter _router;

    internal WatchPipeline(
        IReadOnlyList<BusWithProbes> buses, IReadOnlyList<IStage> stages, DaemonWatcher daemon, WatchStage watch, JournalStage journal, NotificationRouter router) =>
        (_buses, Stages, _daemon, _watch, _journal, _router) = (buses, stages, daemon, watch, journal, router);

    /// <summary>The newest of everything.</summary>
    public required ILiveFeed Feed { get; init; }

    /// <summary>What people may do with alarms.</summary>
    public required AlarmService Alarms { get; init; }

    /// <summary>Where the log book is written.</summary>
    public required SessionService Sessions { get; init; }

    /// <summary>Where plans are kept.</summary>
    public required PlanService Plans { get; init; }

    /// <summary>The link to the broker.</summary>
    public required MqttLink Link { get; init; }

    /// <summary>What happened on the buses.</summary>
    public required ProbeCounters Counters { get; init; }

    /// <summary>Readings lost because the watch stage did not keep up.</summary>
    public long ReadingsDropped => _watch.Dropped;

    /// <summary>Alarm changes and notifications lost because the disk was away for too long.</summary>
    public long AlarmsLost => _journal.Lost + _router.Dropped;

    public IReadOnlyList<(string Contact, string Way, ContactHealth Health)> Contacts =>
        [.. _router.Senders.Select(sender => (sender.Contact, sender.Way, sender.Health))];

    /// <summary>Sentences of each contact held back by the flood limit.</summary>
    public IReadOnlyList<(string Contact, long HeldBack)> HeldBack => [.. _router.HeldBack];

    /// <summary>Makes everything; nothing runs yet. Alarms are taken up where the store left them. <paramref name="pages"/> says how the pages are; followers run as stages beside the others.</summary>
    public static WatchPipeline Build(
        WatchConfiguration configuration,
        MqttOptions mqtt,
        ContactTable contacts,
        IVatPicture? picture,
        WatchStore store,
        WatchClock clock,
        ILoggerFactory logs,
        Func<DaemonSignal>? pages = null,
        params IReadOnlyList<IStoreFollower> followers) =>
        new PipelineAssembly(configuration, mqtt, contacts, picture, store, clock, logs, pages, followers).Build();

    /// <summary>Gives a reading as a bus would; for measuring what the line carries.</summary>
    internal void Enqueue(Reading reading) => _watch.Enqueue(reading);

    /// <summary>Every stage, in order of start.</summary>
    internal IReadOnlyList<IStage> Stages { get; }

    /// <summary>The supervisor that runs the stages.</summary>
    public StageSupervisor Supervise(IHostApplicationLifetime lifetime, ILogger<StageSupervisor> log)
    {
        var supervisor = new StageSupervisor(Stages, new StageOptions(), TimeProvider.System, lifetime, log);
        supervisor.StageFailed += _daemon.NoteRestart;
        return supervisor;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var bus in _buses)
        {
            await bus.Bus.DisposeAsync();
        }
    }
}
