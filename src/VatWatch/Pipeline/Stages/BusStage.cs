using Microsoft.Extensions.Logging;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Supervision;
using VatWatch.Readings;

namespace VatWatch.Pipeline.Stages;

/// <summary>One bus with its probes, as a stage: a bus that fails delays no other.</summary>
internal sealed class BusStage(
    BusWithProbes bus,
    WatchClock clock,
    ProbeCounters counters,
    Action<Reading> deliver,
    ILoggerFactory logs) : IStage
{
    /// <summary>Sample periods without one reading, good or missing, after which the bus is stuck.</summary>
    private const int Periods = 4;

    /// <summary>Covers opening a port that does not answer (15 s) and a pause between two tries.</summary>
    private static readonly TimeSpan Shortest = TimeSpan.FromMinutes(2);

    public string Name => $"bus {bus.Bus.Id}";

    /// <summary>Beats with every reading; a bus that is away gives readings that are missing at the same pace.</summary>
    public Pulse Pulse { get; } = new(LimitOf(bus), TimeProvider.System);

    public Task RunAsync(CancellationToken cancel) => new BusLoop(
        bus.Bus,
        bus.Probes,
        clock,
        TimeProvider.System,
        new BusLoopOptions(),
        counters,
        Deliver,
        logs.CreateLogger<BusLoop>()).RunAsync(cancel);

    private void Deliver(Reading reading)
    {
        Pulse.Tick();
        deliver(reading);
    }

    private static TimeSpan LimitOf(BusWithProbes bus)
    {
        var slowest = bus.Probes.Max(probe => probe.Definition.Every) * Periods;
        return slowest > Shortest ? slowest : Shortest;
    }
}
