namespace VatWatch.Probes.Blocking;

/// <summary>
/// One thread that opens a device, makes the calls it is handed, and closes the device. The device is touched on no other thread: a
/// descriptor closed elsewhere while a call hangs in it could be given out again and the call would go on in a stranger's file.
/// </summary>
internal sealed class DeviceThread<TDevice>
    where TDevice : class, IDisposable
{
    private readonly object _gate = new();
    private readonly Func<TransferWatch, TDevice> _open;
    private readonly Action _onEnd;
    private readonly TaskCompletionSource _opened = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource _ended = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private Action<TDevice>? _next;
    private bool _finish;

    /// <summary>Starts the thread, which opens the device at once. <paramref name="onEnd"/> runs on it as its last act.</summary>
    public DeviceThread(string name, Func<TransferWatch, TDevice> open, TransferWatch watch, Action onEnd)
    {
        _open = open;
        _onEnd = onEnd;
        Watch = watch;
        new Thread(Run) { Name = name, IsBackground = true }.Start();
    }

    public TransferWatch Watch { get; }

    /// <summary>Ends when the device is open, or with the exception of opening it.</summary>
    public Task Opened => _opened.Task;

    /// <summary>Ends when the device is closed and the thread with it.</summary>
    public Task Ended => _ended.Task;

    /// <summary>Hands over one call; the caller waits for it before handing over the next.</summary>
    public Task<T> CallAsync<T>(Func<TDevice, T> call)
    {
        var result = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        lock (_gate)
        {
            if (_finish)
            {
                throw new BusLostException("the device was closed");
            }

            _next = device => Complete(result, call, device);
            Monitor.Pulse(_gate);
        }

        return result.Task;
    }

    /// <summary>Ends the thread after the call under way.</summary>
    public void Finish()
    {
        lock (_gate)
        {
            _finish = true;
            Monitor.Pulse(_gate);
        }
    }

    /// <summary>Ends the thread as soon as the call under way lets go of it.</summary>
    public void GiveUp()
    {
        Watch.GiveUp();
        Finish();
    }

    private static void Complete<T>(TaskCompletionSource<T> result, Func<TDevice, T> call, TDevice device)
    {
        try
        {
            result.SetResult(call(device));
        }
#pragma warning disable CA1031 // Whatever it is belongs to the caller who waits for the result.
        catch (Exception e)
#pragma warning restore CA1031
        {
            result.SetException(e);
        }
    }

    private void Run()
    {
        try
        {
            using var device = _open(Watch);
            _opened.SetResult();
            while (Take() is { } call)
            {
                call(device);
            }
        }
#pragma warning disable CA1031 // A failure to open belongs to the caller; a failure to close is nobody's.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _opened.TrySetException(e);
        }
        finally
        {
            _onEnd();
            _ended.SetResult();
        }
    }

    private Action<TDevice>? Take()
    {
        lock (_gate)
        {
            while (_next is null && !_finish)
            {
                Monitor.Wait(_gate);
            }

            var call = _next;
            _next = null;
            return call;
        }
    }
}
