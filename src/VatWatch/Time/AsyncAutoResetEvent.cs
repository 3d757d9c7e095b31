using System.Threading.Channels;

namespace VatWatch.Time;

/// <summary>Lets one waiter go on. Setting it again before anybody waited changes nothing. Thread safe.</summary>
internal sealed class AsyncAutoResetEvent
{
    private readonly Channel<bool> _signal = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>Never waits.</summary>
    public void Set() => _signal.Writer.TryWrite(true);

    /// <summary>Waits until it is set, or until <paramref name="limit"/> has passed.</summary>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> was cancelled.</exception>
    public async Task WaitAsync(TimeSpan limit, TimeProvider time, CancellationToken cancel)
    {
        using var deadline = new Deadline(limit, time, cancel);
        try
        {
            await _signal.Reader.ReadAsync(deadline.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            // The limit has passed.
        }
    }
}
