using System.Diagnostics;
using VatWatch.Measurements;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Pipeline;

/// <summary>Takes one reading from every probe of a bench, for bringing probes up one by one.</summary>
public static class BenchReading
{
    /// <summary>Nothing on a bench answers later than this.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(5);

    /// <summary>One measurement per probe, with the time it took. A bus that does not open gives a fault for each of its probes.</summary>
    public static async Task<IReadOnlyList<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)>> TakeAsync(
        ProbeBench bench, WatchClock clock, CancellationToken cancel)
    {
        var lost = await TryAsync(() => bench.Bus.OpenAsync(cancel), bench.Bus.Device, cancel);
        var taken = new List<(ProbeDefinition, Measurement, TimeSpan)>();
        foreach (var probe in bench.Probes)
        {
            var started = Stopwatch.GetTimestamp();
            var sample = lost is null ? await SampleAsync(probe, cancel) : Sample.Fault(lost);
            var took = Stopwatch.GetElapsedTime(started);
            var definition = probe.Definition;
            var reading = new Reading(definition.Vat, definition.Id, definition.Measures, sample, clock.Now(), took);
            taken.Add((definition, new MeasurementMaker(definition).Make(reading), took));
        }

        await bench.Bus.CloseAsync();
        return taken;
    }

    private static async Task<Sample> SampleAsync(IProbe probe, CancellationToken cancel)
    {
        var limit = probe.Listens ? probe.Definition.Every + Limit : Limit;
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        try
        {
            return await probe.TakeSampleAsync(stop.Token).AsTask().WaitAsync(limit, TimeProvider.System, cancel);
        }
        catch (TimeoutException)
        {
            await stop.CancelAsync();
            return Sample.Missing($"no answer within {DisplayUnits.Duration(limit)}");
        }
        catch (BusLostException e)
        {
            return Sample.Fault(e.Message);
        }
    }

    private static async Task<string?> TryAsync(Func<ValueTask> open, string device, CancellationToken cancel)
    {
        try
        {
            await open().AsTask().WaitAsync(Limit, TimeProvider.System, cancel);
            return null;
        }
        catch (BusLostException e)
        {
            return e.Message;
        }
        catch (TimeoutException)
        {
            return $"{device} did not open within {DisplayUnits.Duration(Limit)}";
        }
    }
}
