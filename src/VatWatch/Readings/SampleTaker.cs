using VatWatch.Probes;

namespace VatWatch.Readings;

/// <summary>Takes one sample within a hard limit, whatever the driver does. Thread safe.</summary>
internal sealed class SampleTaker(TimeProvider wall, BusLoopOptions options)
{
    /// <summary>How long a driver may take to notice that it was cancelled.</summary>
    private static readonly TimeSpan Grace = TimeSpan.FromSeconds(1);

    /// <summary>Throws <see cref="BusLostException"/> when the bus is gone, or the driver does not return even when cancelled.</summary>
    public async ValueTask<Sample> TakeAsync(IProbe probe, CancellationToken cancel)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        var pending = probe.TakeSampleAsync(stop.Token);
        if (pending.IsCompleted)
        {
            return await pending;
        }

        var taking = pending.AsTask();
        var limit = options.SampleLimit + (probe.Listens ? 2 * probe.Definition.Every : TimeSpan.Zero);
        if (await EndsWithinAsync(taking, limit, cancel))
        {
            return await taking;
        }

        await stop.CancelAsync();
        if (!await EndsWithinAsync(taking, Grace, CancellationToken.None))
        {
            throw new BusLostException($"probe '{probe.Definition.Id}' has kept the bus for more than {limit.TotalSeconds:0.#} s");
        }

        try
        {
            return await taking;
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return Sample.Missing($"no value within {limit.TotalSeconds:0.#} s");
        }
    }

    private async ValueTask<bool> EndsWithinAsync(Task work, TimeSpan limit, CancellationToken cancel)
    {
        await work.WaitAsync(limit, wall, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        return work.IsCompleted;
    }
}
