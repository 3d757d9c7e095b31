using Microsoft.Extensions.Logging;
using VatWatch.Pipeline.Supervision;
using VatWatch.Readings;
using VatWatch.Time;

namespace VatWatch.Pipeline;

/// <summary>One bus with its probes, as a stage: a bus that fails delays no other.</summary>
internal sealed class BusStage(
    ProbeBench bench,
    WatchClock clock,
    ProbeCounters counters,
    Action<Reading> deliver,
    ILoggerFactory logs) : IStage
{
    public string Name => $"bus {bench.Bus.Id}";

    public Task RunAsync(CancellationToken cancel) => new BusLoop(
        bench.Bus,
        bench.Probes,
        clock,
        TimeProvider.System,
        new BusLoopOptions(),
        counters,
        deliver,
        logs.CreateLogger<BusLoop>()).RunAsync(cancel);
}
