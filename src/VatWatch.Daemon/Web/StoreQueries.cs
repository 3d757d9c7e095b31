using VatWatch.Store;

namespace VatWatch.Daemon.Web;

/// <summary>Reads the store for pages and programs: off the request's thread, and never longer than a person waits. Thread safe.</summary>
internal sealed class StoreQueries(WatchStore store, TimeProvider time)
{
    private static readonly TimeSpan LongestRead = TimeSpan.FromSeconds(5);

    /// <summary>What <paramref name="read"/> gives; false when the store does not answer now.</summary>
    public Task<(bool Ok, T? Value)> TryReadAsync<T>(Func<StoreReader, T> read, CancellationToken cancel) => TryReadAsync(read, LongestRead, cancel);

    /// <summary>The same for work that takes longer than reading, such as drawing.</summary>
    public async Task<(bool Ok, T? Value)> TryReadAsync<T>(Func<StoreReader, T> read, TimeSpan longest, CancellationToken cancel)
    {
        try
        {
            return (true, await Task.Run(
                () =>
                {
                    using var reader = store.OpenReader();
                    return read(reader);
                },
                cancel).WaitAsync(longest, time, cancel));
        }
        catch (Exception caught) when (caught is StoreUnavailableException or TimeoutException)
        {
            return (false, default);
        }
    }
}
