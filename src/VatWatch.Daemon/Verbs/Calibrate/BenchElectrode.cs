using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;
using VatWatch.Readings;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>The probe on its own bus, read each second whatever its period in the vat is.</summary>
internal sealed class BenchElectrode(IReadOnlyList<BusWithProbes> benches, KnownTemperatures known, ProbeDefinition probe, WatchClock clock) : ILiveElectrode
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    /// <summary>Longer than anybody waits for an electrode to come to rest.</summary>
    private static readonly TimeSpan SolutionHolds = TimeSpan.FromHours(1);

    public IAsyncEnumerable<Reading> FollowAsync(double solutionC, CancellationToken cancel)
    {
        // Its thermometer hangs in the vat, and nobody reads it here.
        known.Note(probe.Vat, solutionC, SolutionHolds);
        return BenchReading.FollowAsync(benches.Single(bench => bench.Probes.Any(one => one.Definition.Id == probe.Id)), probe.Id, Pause, clock, cancel);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var bench in benches)
        {
            await bench.Bus.DisposeAsync();
        }
    }
}
