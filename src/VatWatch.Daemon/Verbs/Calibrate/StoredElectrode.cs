using System.Runtime.CompilerServices;
using VatWatch.Measurements;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Calibrate;

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
