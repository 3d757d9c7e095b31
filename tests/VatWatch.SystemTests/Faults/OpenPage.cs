namespace VatWatch.SystemTests.Faults;

/// <summary>Somebody who has the page open: follows the event stream until disposed.</summary>
internal sealed class OpenPage : IDisposable
{
    private readonly CancellationTokenSource _leave = new();
    private readonly HttpClient _visitor = new() { Timeout = Timeout.InfiniteTimeSpan };
    private long _bytes;

    public OpenPage(string url) => _ = FollowAsync(url);

    /// <summary>What it was told so far.</summary>
    public long Bytes => Interlocked.Read(ref _bytes);

    public void Dispose()
    {
        _leave.Cancel();
        _visitor.Dispose();
        _leave.Dispose();
    }

    private async Task FollowAsync(string url)
    {
        try
        {
            await using var events = await _visitor.GetStreamAsync($"{url}/api/events", _leave.Token);
            var buffer = new byte[16 * 1024];
            for (int count; (count = await events.ReadAsync(buffer, _leave.Token)) > 0;)
            {
                Interlocked.Add(ref _bytes, count);
            }
        }
        catch (Exception end) when (end is OperationCanceledException or IOException or HttpRequestException or ObjectDisposedException)
        {
        }
    }
}
