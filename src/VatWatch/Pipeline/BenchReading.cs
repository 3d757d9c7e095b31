using System.Collections.Concurrent;
using System.Diagnostics;
using System.Runtime.CompilerServices;
using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;
using VatWatch.Readings;

namespace VatWatch.Pipeline;

/// <summary>Takes one reading from every probe of a bench, for bringing probes up one by one.</summary>
public static class BenchReading
{
    /// <summary>Nothing on a bench answers later than this.</summary>
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(5);

    /// <summary>
    /// One reading per probe, with the time it took; temperatures first, because other instruments may have to be told them. A bus that does not
    /// open gives a fault for each of its probes.
    /// </summary>
    /// <param name="buses">Every bus with its probes.</param>
    /// <param name="known">What the probes were made with.</param>
    /// <param name="clock">Stamps the readings.</param>
    /// <param name="asking">Told of each probe just before it is read; may be null.</param>
    public static async Task<IReadOnlyList<(ProbeDefinition Probe, Reading Reading)>> TakeAsync(
        IReadOnlyList<BusWithProbes> buses, KnownTemperatures known, WatchClock clock, Action<ProbeDefinition>? asking, CancellationToken cancel)
    {
        var lost = await Task.WhenAll(buses.Select(bus => TryAsync(() => bus.Bus.OpenAsync(cancel), bus.Bus.Device, cancel)));
        var taken = new ConcurrentDictionary<ProbeId, Reading>();
        foreach (var isTemperature in new[] { true, false })
        {
            await Task.WhenAll(buses.Zip(lost, async (bus, reason) =>
            {
                foreach (var probe in bus.Probes.Where(probe => probe.Definition.Quantity == Quantity.Temperature == isTemperature))
                {
                    asking?.Invoke(probe.Definition);
                    var reading = await ReadAsync(probe, reason, clock, cancel);
                    taken[reading.Probe] = reading;
                    if (isTemperature && reading.Sample is { Quality: Quality.Good, Value: { } value })
                    {
                        known.Note(reading.Vat, probe.Definition.ToCanonical(value), probe.Definition.Every);
                    }
                }
            }));
        }

        await Task.WhenAll(buses.Select(bus => bus.Bus.CloseAsync().AsTask()));
        return [.. buses.SelectMany(bus => bus.Probes).Select(probe => (probe.Definition, taken[probe.Definition.Id]))];
    }

    private static async Task<Reading> ReadAsync(IProbe probe, string? lost, WatchClock clock, CancellationToken cancel)
    {
        var started = Stopwatch.GetTimestamp();
        var sample = lost is null ? await SampleAsync(probe, cancel) : Sample.Fault(lost);
        var definition = probe.Definition;
        return new(definition.Vat, definition.Id, definition.Quantity, sample, clock.Now(), Stopwatch.GetElapsedTime(started));
    }

    /// <summary>Readings of one probe of a bench, one after the other, until cancelled or the bus is lost.</summary>
    /// <param name="pause">Time between two readings.</param>
    /// <param name="clock">Stamps and paces them.</param>
    public static async IAsyncEnumerable<Reading> FollowAsync(
        BusWithProbes bus, ProbeId probe, TimeSpan pause, WatchClock clock, [EnumeratorCancellation] CancellationToken cancel)
    {
        var followed = bus.Probes.Single(one => one.Definition.Id == probe);
        var definition = followed.Definition;
        Reading Made(Sample sample) => new(definition.Vat, definition.Id, definition.Quantity, sample, clock.Now(), TimeSpan.Zero);
        try
        {
            if (await TryAsync(() => bus.Bus.OpenAsync(cancel), bus.Bus.Device, cancel) is { } lost)
            {
                yield return Made(Sample.Fault(lost));
                yield break;
            }

            while (true)
            {
                yield return Made(await SampleAsync(followed, cancel));
                await Task.Delay(pause, clock.Provider, cancel);
            }
        }
        finally
        {
            await bus.Bus.CloseAsync();
        }
    }

    /// <summary>What the readings of all buses mean, in their order; electrodes are read with the temperatures among them.</summary>
    public static IReadOnlyList<(ProbeDefinition Probe, Measurement Measurement, TimeSpan Took)> Judge(
        IEnumerable<VatDefinition> vats, CalibrationCache calibrations, IReadOnlyList<(ProbeDefinition Probe, Reading Reading)> taken)
    {
        var calibrators = vats.ToDictionary(vat => vat.Id, vat => new Calibrator(vat, calibrations));
        Measurement Made((ProbeDefinition Probe, Reading Reading) one) => new MeasurementMaker(one.Probe, calibrators[one.Probe.Vat]).Make(one.Reading);
        foreach (var temperature in taken.Where(one => one.Probe.Quantity == Quantity.Temperature).Select(Made))
        {
            if (temperature.GoodValue is { } value)
            {
                calibrators[temperature.Vat].TakeTemperature(temperature.Probe, value, temperature.Stamp);
            }
        }

        return [.. taken.Select(one => (one.Probe, Made(one), one.Reading.Took))];
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
