using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>The probe on its own bus, read each second whatever its period in the vat is.</summary>
internal sealed class BenchElectrode(IReadOnlyList<BusWithProbes> benches, ProbeId probe, WatchClock clock) : ILiveElectrode
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    public IAsyncEnumerable<Reading> FollowAsync(CancellationToken cancel) =>
        BenchReading.FollowAsync(benches.Single(bench => bench.Probes.Any(one => one.Definition.Id == probe)), probe, Pause, clock, cancel);

    public async ValueTask DisposeAsync()
    {
        foreach (var bench in benches)
        {
            await bench.Bus.DisposeAsync();
        }
    }
}
