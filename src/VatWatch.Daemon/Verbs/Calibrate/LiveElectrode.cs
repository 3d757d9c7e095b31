using System.Runtime.CompilerServices;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Chooses how to see a probe: on its own bus, or, where the daemon has the bus, in the daemon's store.</summary>
internal static class LiveElectrode
{
    public static ILiveElectrode Open(CalibrationJob job, bool daemonRuns)
    {
        if (daemonRuns)
        {
            return new StoredElectrode(job.Store.Folder, job.Probe);
        }

        var clock = new WatchClock(TimeProvider.System);
        var known = new KnownTemperatures(clock);
        return new BenchElectrode(BusWithProbes.Build(job.Store.Watch, clock, known), known, job.Probe, clock);
    }
}

/// <summary>Where a guided calibration sees what the probe shows now.</summary>
internal interface ILiveElectrode : IAsyncDisposable
{
    /// <summary>Readings as they come; ends when the probe is lost.</summary>
    /// <param name="solutionC">Temperature of the solution that it stands in, °C, for an instrument that must be told it.</param>
    IAsyncEnumerable<Reading> FollowAsync(double solutionC, CancellationToken cancel);
}

/// <summary>The probe as the running daemon stores it: some seconds late, by the commit interval.</summary>
internal sealed class StoredElectrode(string folder, ProbeDefinition probe) : ILiveElectrode
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    public async IAsyncEnumerable<Reading> FollowAsync(double solutionC, [EnumeratorCancellation] CancellationToken cancel)
    {
        DateTimeOffset? seen = null;
        while (true)
        {
            foreach (var one in Since(seen))
            {
                seen = one.Stamp.Utc;
                yield return new Reading(one.Vat, one.Probe, one.Quantity, new Sample(one.Raw, one.Raw is null ? one.Quality : Quality.Good, one.Reason), one.Stamp, TimeSpan.Zero);
            }

            await Task.Delay(Pause, TimeProvider.System, cancel);
        }
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private List<Measurement> Since(DateTimeOffset? seen)
    {
        using var reader = StoreReader.OpenFolder(folder);
        return seen is { } last
            ? [.. reader.Measurements(probe.Vat, last.AddTicks(1), DateTimeOffset.MaxValue).Where(one => one.Probe == probe.Id && one.Stamp.Utc > last)]
            : [.. reader.Latest().Where(one => one.Probe == probe.Id)];
    }
}

/// <summary>The probe on its own bus, read each second whatever its period in the vat is.</summary>
internal sealed class BenchElectrode(IReadOnlyList<BusWithProbes> buses, KnownTemperatures known, ProbeDefinition probe, WatchClock clock) : ILiveElectrode
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    /// <summary>Longer than anybody waits for an electrode to come to rest.</summary>
    private static readonly TimeSpan SolutionHolds = TimeSpan.FromHours(1);

    public IAsyncEnumerable<Reading> FollowAsync(double solutionC, CancellationToken cancel)
    {
        // Its thermometer hangs in the vat, and nobody reads it here.
        known.Note(probe.Vat, solutionC, SolutionHolds);
        return BenchReading.FollowAsync(buses.Single(bus => bus.Probes.Any(one => one.Definition.Id == probe.Id)), probe.Id, Pause, clock, cancel);
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var bus in buses)
        {
            await bus.Bus.DisposeAsync();
        }
    }
}
