using System.Collections.Concurrent;

namespace VatWatch.Charts.Traces;

/// <summary>Takes a sequence in on another thread while its user works on what has come. Never more than a few thousand items lie between the two.</summary>
internal static class ReadAhead
{
    private const int BatchSize = 1024;
    private const int MostBatches = 8;

    /// <summary>The items of <paramref name="source"/> in their order, and what it throws. The source is left alone once the enumeration has ended.</summary>
    public static IEnumerable<T> Of<T>(IEnumerable<T> source)
    {
        using var batches = new BlockingCollection<T[]>(MostBatches);
        using var stop = new CancellationTokenSource();
        var reading = Task.Run(() => Read(source, batches, stop.Token));
        try
        {
            foreach (var batch in batches.GetConsumingEnumerable())
            {
                foreach (var item in batch)
                    yield return item;
            }
        }
        finally
        {
            stop.Cancel();
            ((IAsyncResult)reading).AsyncWaitHandle.WaitOne();
        }

        reading.GetAwaiter().GetResult();
    }

    private static void Read<T>(IEnumerable<T> source, BlockingCollection<T[]> batches, CancellationToken stop)
    {
        try
        {
            foreach (var batch in source.Chunk(BatchSize))
                batches.Add(batch, stop);
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Whoever reads has had enough.
        }
        finally
        {
            batches.CompleteAdding();
        }
    }
}
