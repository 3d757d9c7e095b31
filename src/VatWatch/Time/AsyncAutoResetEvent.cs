using System.Threading.Channels;

namespace VatWatch.Time;

/// <summary>Lets one waiter go on. Setting it again before anybody waited changes nothing. Thread safe.</summary>
internal sealed class AsyncAutoResetEvent : IThreadPoolWorkItem
{
    private readonly Channel<bool> _signal = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite, AllowSynchronousContinuations = true });

    private int _isQueued;

    /// <summary>Never waits; the waiter goes on on a thread of the pool. Who is woken first goes on first, whichever thread wakes them.</summary>
    public void Set()
    {
        if (Interlocked.Exchange(ref _isQueued, 1) == 0)
        {
            ThreadPool.UnsafeQueueUserWorkItem(this, preferLocal: false);
        }
    }

    /// <summary>The waiter goes on here and now, until it waits again; for a caller that can spare the time and a waiter that must not be late.</summary>
    public void SetHere() => _signal.Writer.TryWrite(true);

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

    void IThreadPoolWorkItem.Execute()
    {
        Volatile.Write(ref _isQueued, 0);
        SetHere();
    }
}
