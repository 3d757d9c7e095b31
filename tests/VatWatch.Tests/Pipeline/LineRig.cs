using System.Text;
using Microsoft.Extensions.Hosting.Internal;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Supervision;
using VatWatch.Probes.I2c;
using VatWatch.Probes.I2c.Mcp9808;
using VatWatch.Probes.Simulation;
using VatWatch.Store;
using VatWatch.Testing;
using VatWatch.Testing.Registers;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Pipeline;

/// <summary>The whole line from probe to outbox, on a store of its own, with one vat on a fake I2C adapter and one simulated; any stage may be another.</summary>
internal sealed class LineRig : IAsyncDisposable
{
    private readonly string _folder;
    private readonly ApplicationLifetime _lifetime = new(NullLogger<ApplicationLifetime>.Instance);
    private readonly WatchStore _store;
    private readonly WatchPipeline _line;
    private StageSupervisor? _supervisor;

    /// <param name="simulatedC">Temperature of the simulated vat, °C.</param>
    /// <param name="folder">The store's folder, which is removed at the end; a new one when it is not given.</param>
    /// <param name="before">Written into the store before anything is made of it.</param>
    /// <param name="uptime">How long the computer has been up; its own when it is not given.</param>
    public LineRig(double simulatedC = 45, string? folder = null, Action<StoreTransaction>? before = null, TimeProvider? uptime = null)
    {
        _folder = folder ?? Directory.CreateTempSubdirectory("line-").FullName;
        var faults = new ConfigFaults();
        var root = ConfigFile.Parse(Encoding.UTF8.GetBytes(Configuration(simulatedC)), faults)!;
        var catalog = ProbeCatalog.Of([new I2cBusKind { Open = Bench.Open }, new SimulationBusKind()], [new Mcp9808Driver(), new SimulatedDriver()]);
        var configuration = new WatchConfigurationReader(catalog).Read(root);
        root.Done();
        Assert.Empty(faults.All);
        Bench.With(0x18, new Mcp9808Registers { Temperature = 0xC000 | (45 * 16) });
        _store = WatchStore.Open(_folder, configuration.Store, TimeProvider.System, NullLogger<WatchStore>.Instance);
        if (before is not null)
        {
            _store.WriteAsync(
                work =>
                {
                    before(work);
                    return 0;
                },
                CancellationToken.None).Wait(TimeSpan.FromSeconds(20));
        }

        // No broker listens there: the link tries on and on, as in a night without one.
        var mqtt = new MqttOptions { IsBuiltin = false, Host = "127.0.0.1", Port = FreePort.Next() };
        _line = WatchPipeline.Build(
            configuration, mqtt, ContactTable.Usual(configuration.Units), null, _store, new WatchClock(TimeProvider.System) { Uptime = uptime ?? new UptimeProvider() }, NullLoggerFactory.Instance);
    }

    public FakeI2cBench Bench { get; } = new();

    public WatchStore Store => _store;

    public IReadOnlyList<IStage> Stages => _line.Stages;

    public StageSupervisor Supervisor => _supervisor ?? throw new InvalidOperationException("not started");

    public bool IsStopping => _lifetime.ApplicationStopping.IsCancellationRequested;

    /// <summary>Starts every stage, with <paramref name="other"/> in the place of the one of its name.</summary>
    public Task StartAsync(IStage? other = null, StageOptions? options = null)
    {
        _supervisor = new StageSupervisor(
            [.. _line.Stages.Select(stage => stage.Name == other?.Name ? other : stage)], options ?? new StageOptions(), TimeProvider.System, _lifetime, NullLogger<StageSupervisor>.Instance);
        return _supervisor.StartAsync(CancellationToken.None);
    }

    /// <summary>The newest measurement of the vat on I2C ("wired") or of the simulated one ("simulated").</summary>
    public Measurement? Newest(string vat) => _line.Feed.Vats.Single(one => one.Definition.Id.Value == vat).Latest.Select(one => (Measurement?)one).FirstOrDefault();

    /// <summary>The newest condition of a vat.</summary>
    public VatCondition Condition(string vat) => _line.Feed.Vats.Single(one => one.Definition.Id.Value == vat).Condition;

    /// <summary>The state of an alarm of a vat; null when it is in normal.</summary>
    public AlarmState? StateOf(string vat, string alarm) =>
        _line.Feed.Vats.Single(one => one.Definition.Id.Value == vat).Alarms.FirstOrDefault(one => one.Alarm.Value == alarm)?.State;

    /// <summary>An alarm about the daemon itself; null when it is in normal.</summary>
    public AlarmStatus? OfDaemon(string alarm) => _line.Feed.DaemonAlarms.FirstOrDefault(one => one.Alarm.Value == alarm);

    /// <summary>Every measurement of a vat that is on the disk.</summary>
    public IReadOnlyList<Measurement> Kept(string vat)
    {
        using var reader = _store.OpenReader();
        return [.. reader.Measurements(new(vat), DateTimeOffset.MinValue, DateTimeOffset.MaxValue)];
    }

    public async ValueTask DisposeAsync()
    {
        Bench.Faults.LetGo();
        if (_supervisor is not null)
        {
            await _supervisor.StopAsync(CancellationToken.None);
            _supervisor.Dispose();
        }

        await _line.DisposeAsync();
        await _store.DisposeAsync();
        Bench.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private static string Configuration(double simulatedC) => $$"""
        {
          "site": "test-studio",
          "store": { "commitInterval": "1 s" },
          "buses": { "pi": { "kind": "i2c", "bus": 1 }, "sound": { "kind": "simulation", "start": "{{simulatedC}} °C" } },
          "vats": [
            {{Vat("wired", """{ "id": "wired-t", "measures": "temperature", "bus": "pi", "driver": "mcp9808", "every": "200 ms", "settings": { "address": "0x18" } }""")}},
            {{Vat("simulated", """{ "id": "simulated-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "200 ms" }""")}}
          ]
        }
        """;

    private static string Vat(string id, string probe) => $$"""
        {
          "id": "{{id}}", "name": "Vat {{id}}", "volume": "60 L", "fibre": "protein", "reducer": "thiourea-dioxide",
          "temperature": { "low": "38 °C", "high": "47.5 °C", "limit": "49 °C" },
          "alarms": { "overheat": { "onDelay": "200 ms" } },
          "probes": [ {{probe}} ]
        }
        """;
}
