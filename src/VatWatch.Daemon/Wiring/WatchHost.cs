using System.Net.Sockets;
using Serilog;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Service;
using VatWatch.Daemon.Web.Alarms.History;
using VatWatch.Daemon.Web.Health;
using VatWatch.Daemon.Web.Settings;
using VatWatch.Daemon.Web;
using VatWatch.Influx;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt.Broker;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;
using VatWatch.Store.Disk;

namespace VatWatch.Daemon.Wiring;

/// <summary>The running daemon: store, broker, stages and pages, put together and taken apart in the right order.</summary>
internal sealed class WatchHost : IAsyncDisposable
{
    private readonly DaemonConfiguration _configuration;
    private readonly WebApplication _app;
    private readonly WatchStore _store;
    private readonly WatchPipeline _line;
    private readonly BuiltinBroker? _broker;
    private readonly Socket? _local;
    private readonly Serilog.Core.Logger _logger;
    private readonly ILogger<WatchHost> _log;

    private WatchHost(DaemonConfiguration configuration, WebApplication app, WatchStore store, WatchPipeline line, BuiltinBroker? broker, Socket? local, Serilog.Core.Logger logger)
    {
        _configuration = configuration;
        _app = app;
        _store = store;
        _line = line;
        _broker = broker;
        _local = local;
        _logger = logger;
        _log = app.Services.GetRequiredService<ILogger<WatchHost>>();
    }

    /// <summary>Opens the store and makes everything; nothing listens or runs yet.</summary>
    public static WatchHost Open(DaemonConfiguration configuration, string dataFolder, bool jsonLog)
    {
        var logger = WatchLogging.Create(jsonLog, configuration.Watch.Zone, out var console);
        try
        {
            return Open(configuration, dataFolder, logger, console);
        }
        catch
        {
            logger.Dispose();
            throw;
        }
    }

    private static WatchHost Open(DaemonConfiguration configuration, string dataFolder, Serilog.Core.Logger logger, BackgroundSink console)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, EnvironmentName = Environments.Production });

        // The framework also takes settings from the environment and from files beside the program, listeners among them. Only the configuration counts.
        ((IConfigurationBuilder)builder.Configuration).Sources.Clear();
        builder.Logging.ClearProviders();
        builder.Services.AddSerilog(logger);
        using var logs = new Serilog.Extensions.Logging.SerilogLoggerFactory(logger);

        if (LocalSocket.IsListenedOn(dataFolder) && !StoreBeside.IsHeld(dataFolder))
        {
            throw new StoreInUseException($"Store in '{dataFolder}': tried to open it; a VatWatch answers on '{LocalSocket.PathIn(dataFolder)}', though its vatwatch.lock is gone; "
                + "wanted the folder to ourselves; stop that one or choose another folder.");
        }

        var store = WatchStore.Open(dataFolder, configuration.Watch.Store, TimeProvider.System, logs.CreateLogger<WatchStore>(), mayWait: true);
        var clock = StartClock(configuration.Watch, store);
        var forwarder = configuration.Influx is { } influx
            ? new InfluxForwarder(store, influx, configuration.Watch.Site, configuration.Watch.Units, TimeProvider.System, logs.CreateLogger<InfluxForwarder>())
            : null;
        var pages = new PageTrouble();
        var line = WatchPipeline.Build(
            configuration.Watch, configuration.Mqtt, configuration.Contacts, new MailChart(store, configuration.Watch, clock), store, clock, logs, pages.Signal, forwarder is null ? [] : [forwarder]);
        var local = LocalSocket.TryBind(dataFolder, out var fault);
        if (local is null)
        {
            Log.NoLocalSocket(logs.CreateLogger<WatchHost>(), fault);
        }

        Register(builder, configuration, store, line, dataFolder, local);
        builder.Services.AddSingleton(pages).AddSingleton<IMetricSource>(new LogMetrics(console));
        if (forwarder is not null)
        {
            builder.Services.AddSingleton<IMetricSource>(_ => new InfluxMetrics(forwarder));
        }

        var app = builder.Build();
        VatWatchWeb.Map(app);
        var broker = configuration.Mqtt.IsBuiltin ? new BuiltinBroker(configuration.Mqtt, app.Services.GetRequiredService<ILogger<BuiltinBroker>>()) : null;
        return new WatchHost(configuration, app, store, line, broker, local, logger);
    }

    /// <summary>Runs until stopped; false when a stage gave up.</summary>
    public async Task<bool> RunAsync(CancellationToken cancel)
    {
        if (_broker is not null)
        {
            await _broker.StartAsync(cancel);
        }

        await StartAppAsync(cancel);
        var watch = _configuration.Watch;
        var (vats, probes) = (DisplayUnits.Count(watch.Vats.Count, "vat"), DisplayUnits.Count(watch.Vats.Sum(vat => vat.Probes.Count), "probe"));
        var (page, broker) = (_configuration.Web.Url, _configuration.Mqtt.Address);
        Log.Watching(_log, watch.Site, vats, probes, page, broker);
        if (watch.Speed > 1)
        {
            Log.Simulated(_log, watch.Speed);
        }

        await _app.WaitForShutdownAsync(cancel);
        return !_app.Services.GetRequiredService<StageSupervisor>().HasGivenUp;
    }

    /// <summary>Starts stages and pages; what did start is stopped again when the rest cannot.</summary>
    private async Task StartAppAsync(CancellationToken cancel)
    {
        try
        {
            await _app.StartAsync(cancel);
        }
        catch
        {
            await _app.StopAsync(CancellationToken.None);
            throw;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _app.DisposeAsync();
        _local?.Dispose();
        if (_broker is not null)
        {
            await _broker.DisposeAsync();
        }

        await _line.DisposeAsync();
        await _store.DisposeAsync();
        await _logger.DisposeAsync();
    }

    /// <summary>A fast simulation goes on from the newest label in the store, so that a restart does not write over its own past.</summary>
    private static WatchClock StartClock(WatchConfiguration watch, WatchStore store)
    {
        if (watch.Speed == 1)
        {
            return new WatchClock(TimeProvider.System, zone: watch.Zone);
        }

        var now = TimeProvider.System.GetUtcNow();
        var origin = LastUtc(store) is { } last && last > now ? last.AddSeconds(1) : now;
        return new WatchClock(new ScaledTimeProvider(TimeProvider.System, watch.Speed, origin), zone: watch.Zone);
    }

    private static DateTimeOffset? LastUtc(WatchStore store)
    {
        try
        {
            using var reader = store.OpenReader();
            return reader.LastUtc();
        }
        catch (StoreUnavailableException) when (!store.Health.Ok)
        {
            return null;
        }
    }

    private static void Register(WebApplicationBuilder builder, DaemonConfiguration configuration, WatchStore store, WatchPipeline line, string dataFolder, Socket? local)
    {
        var watch = configuration.Watch;
        var services = builder.Services;
        var simulated = watch.Buses.Where(bus => bus.Kind == "simulation").Select(bus => bus.Id).ToHashSet();
        var facts = new SiteFacts(
            watch.Site,
            watch.Units,
            watch.Vats.Where(vat => vat.Definition.Probes.Any(probe => simulated.Contains(probe.Bus))).Select(vat => vat.Definition.Id).ToHashSet(),
            watch.Speed);
        VatWatchWeb.AddTo(builder, configuration.Web, facts, Path.Combine(dataFolder, "keys"), local);
        services.AddSingleton(new SettingsFacts(Path.GetFullPath(configuration.File), Path.GetFullPath(dataFolder), configuration.Settings));
        services.AddSingleton(line.Feed);
        services.AddSingleton(line.Alarms);
        services.AddSingleton(line.Sessions);
        services.AddSingleton(line.Plans);
        services.AddSingleton(store);
        services.AddSingleton(new CalibrationRules(watch.Vats));
        services.AddSingleton<IAlarmHistory>(new StoredAlarmHistory(store, TimeProvider.System));
        services.AddSingleton(provider => new ContactTest(
            configuration.Contacts,
            configuration.Mqtt,
            watch.Site,
            [.. watch.Vats.Select(vat => vat.Definition.Id)],
            new MailChart(store, watch, line.Feed.Clock),
            TimeProvider.System,
            provider.GetRequiredService<ILogger<ContactTest>>()));
        services.AddSingleton<IReadiness>(provider => new StageReadings(provider.GetRequiredService<StageSupervisor>(), store, line.Link));
        services.AddSingleton<IMetricSource>(new LineMetrics(line, store));
        services.AddSingleton(provider => line.Supervise(provider.GetRequiredService<IHostApplicationLifetime>(), provider.GetRequiredService<ILogger<StageSupervisor>>()));
        services.AddHostedService(provider => provider.GetRequiredService<StageSupervisor>());
        if (ServiceSocket.FromEnvironment() is { } manager)
        {
            services.AddHostedService(provider => new ServiceNotifier(
                manager,
                () => provider.GetRequiredService<StageSupervisor>().Stuck,
                provider.GetRequiredService<IHostApplicationLifetime>(),
                TimeProvider.System,
                provider.GetRequiredService<ILogger<ServiceNotifier>>()));
        }
    }
}

/// <summary>What the console did not take, for <c>/metrics</c>.</summary>
internal sealed class LogMetrics(BackgroundSink console) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        yield return MetricFamily.Counter("vatwatch_log_lines_dropped", "", "Lines that the console did not take in time.", console.Dropped);
    }
}

/// <summary>Counters of the copy on a server, for <c>/metrics</c>.</summary>
internal sealed class InfluxMetrics(InfluxForwarder forwarder) : IMetricSource
{
    public IEnumerable<MetricFamily> Collect()
    {
        var state = forwarder.State;
        yield return MetricFamily.Gauge("vatwatch_server_taking", "", "1 while the database server takes points.", state.Trouble is null ? 1 : 0);
        yield return MetricFamily.Gauge("vatwatch_server_behind_measurements", "", "Measurements that are stored and not yet with the database server.", state.Waiting);
        yield return MetricFamily.Counter("vatwatch_server_points_sent", "", "Points that the database server has taken.", state.Sent);
        yield return MetricFamily.Counter("vatwatch_server_points_set_aside", "", "Points that the database server refuses for good.", state.Refused);
    }
}
