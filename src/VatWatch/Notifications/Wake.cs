using System.Threading.Channels;

namespace VatWatch.Notifications;

/// <summary>Tells a loop that there is something to do; told twice before it looks, it looks once. Thread safe.</summary>
internal sealed class Wake
{
    private readonly Channel<bool> _bell = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>There is something to do. Never waits.</summary>
    public void Ring() => _bell.Writer.TryWrite(true);

    /// <summary>Waits until rung, or until <paramref name="limit"/> has passed.</summary>
    public async Task WaitAsync(TimeSpan limit, TimeProvider time, CancellationToken cancel)
    {
        using var deadline = new CancellationTokenSource(limit, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(deadline.Token, cancel);
        try
        {
            await _bell.Reader.ReadAsync(either.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            // The limit has passed.
        }
    }
}
