using System.Text;
using VatWatch.Probes;
using VatWatch.Probes.Blocking;
using VatWatch.Probes.I2c;
using VatWatch.Testing;
using VatWatch.Testing.Registers;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Probes.I2c;

/// <summary>A fake I2C adapter behind the real bus, probes made from settings as in the configuration.</summary>
internal sealed class I2cRig : IAsyncDisposable
{
    public I2cRig(BlockingLimits? limits = null, TimeProvider? wall = null)
    {
        var kind = new I2cBusKind { Open = Bench.Open };
        Bus = limits is null
            ? (BlockingBus<I2cWire>)kind.Read(new BusId("pi"), Node("{}", out _)).Create(new WatchClock(TimeProvider.System))
            : kind.Bus(new BusId("pi"), 1, limits, wall ?? TimeProvider.System);
    }

    public static CancellationToken Stop => TestContext.Current.CancellationToken;

    public FakeI2cBench Bench { get; } = new();

    public BlockingBus<I2cWire> Bus { get; }

    /// <summary>A probe of these settings, on the open bus.</summary>
    public async Task<IProbe> OpenAsync(IProbeDriver driver, string settings, Quantity measures = Quantity.Temperature)
    {
        var probe = Make(driver, settings, measures);
        if (Bus.Threads == 0)
        {
            await Bus.OpenAsync(Stop);
        }

        return probe;
    }

    public IProbe Make(IProbeDriver driver, string settings, Quantity measures = Quantity.Temperature) => Make(driver, settings, measures, Bus);

    public static IProbe Make(IProbeDriver driver, string settings, Quantity measures, IProbeBus bus, KnownTemperatures? known = null)
    {
        var node = Node(settings, out var faults);
        var plan = driver.Read(node, measures, TimeSpan.FromSeconds(5));
        node.Done();
        Assert.Empty(faults.All);
        return plan.Create(bus, SampleVats.MadderLane(), SampleVats.Probe("madder-lane", "liquor", measures) with { Unit = plan.Unit }, known ?? new KnownTemperatures(new WatchClock(TimeProvider.System)));
    }

    public static IReadOnlyList<string> FaultsOf(IProbeDriver driver, string settings, Quantity measures = Quantity.Temperature, double everySeconds = 5)
    {
        var node = Node(settings, out var faults);
        driver.Read(node, measures, TimeSpan.FromSeconds(everySeconds));
        node.Done();
        return [.. faults.All.Select(fault => fault.ToString())];
    }

    public static ConfigNode Node(string json, out ConfigFaults faults)
    {
        faults = new ConfigFaults();
        var root = ConfigFile.Parse(Encoding.UTF8.GetBytes($"{{ \"settings\": {json} }}"), faults);
        return root!.Section("settings");
    }

    public async ValueTask DisposeAsync()
    {
        Bench.Faults.LetGo();
        await Bus.DisposeAsync();
        Bench.Dispose();
    }
}
