namespace VatWatch.Probes.Blocking;

/// <summary>
/// A bus whose calls block: opens its device on a thread of its own, makes one call at a time there, and gives device and thread up when a
/// call hangs. While an abandoned thread is still stuck one more may be started, never a third. Thread safe.
/// </summary>
/// <param name="id">Name in the configuration.</param>
/// <param name="device">What a person would look for, for sentences and the thread's name.</param>
/// <param name="open">Opens the device; runs on its thread. Throws <see cref="BusLostException"/> with a sentence when it cannot.</param>
/// <param name="limits">How long calls may take.</param>
/// <param name="wall">The clock of these limits.</param>
internal sealed class BlockingBus<TDevice>(BusId id, string device, Func<TransferWatch, TDevice> open, BlockingLimits limits, TimeProvider wall)
    : IProbeBus
    where TDevice : class, IDisposable
{
    private const int MaximumThreads = 2;

    private readonly SemaphoreSlim _turn = new(1, 1);
    private DeviceThread<TDevice>? _thread;
    private int _threads;

    public BusId Id => id;

    public string Device { get => field ?? device; init; }

    /// <summary>Which chips on it answer; begins anew with each opening.</summary>
    public ChipTally Chips { get; } = new();

    /// <summary>Threads alive: one when open, one more for each call that was abandoned and still hangs.</summary>
    public int Threads => Volatile.Read(ref _threads);

    public async ValueTask OpenAsync(CancellationToken cancel)
    {
        Chips.Clear();
        if (_thread is not null)
        {
            throw new InvalidOperationException($"{device} is open already.");
        }

        if (Threads >= MaximumThreads)
        {
            throw new BusLostException($"{device}: {MaximumThreads} earlier calls still hang in the kernel's driver; wanted one of them back before another try");
        }

        Interlocked.Increment(ref _threads);
        var thread = new DeviceThread<TDevice>(device, open, new TransferWatch(wall), () => Interlocked.Decrement(ref _threads));
        try
        {
            await thread.Opened.WaitAsync(limits.Call, wall, cancel);
            _thread = thread;
        }
        catch (TimeoutException)
        {
            throw new BusLostException($"{device} did not open within {limits.Call.TotalSeconds:0.#} s");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new BusLostException($"{device} cannot be opened: {e.Message.TrimEnd('.')}", e);
        }
        finally
        {
            if (_thread != thread)
            {
                thread.GiveUp();
            }
        }
    }

    /// <summary>
    /// Makes <paramref name="call"/> on the device's thread when it is this caller's turn. A caller who stops waiting does not stop the call;
    /// the next caller's turn comes when it has ended.
    /// </summary>
    public async Task<T> RunAsync<T>(Func<TDevice, T> call, CancellationToken cancel)
    {
        await _turn.WaitAsync(cancel);
        var watched = WatchAsync(call);
        try
        {
            return await watched.WaitAsync(cancel);
        }
        catch (OperationCanceledException) when (!watched.IsCompleted)
        {
            // It ends within its limits; whatever comes of it has no one to go to.
            _ = watched.ContinueWith(static ended => ended.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            throw;
        }
    }

    /// <summary>Closes the device, or leaves that to its thread when a call hangs in it.</summary>
    public async ValueTask CloseAsync()
    {
        if (Interlocked.Exchange(ref _thread, null) is not { } thread)
        {
            return;
        }

        thread.Finish();
        using var stop = new CancellationTokenSource();
        await Task.WhenAny(thread.Ended, Task.Delay(limits.Close, wall, stop.Token));
        await stop.CancelAsync();
        thread.GiveUp();
    }

    public ValueTask DisposeAsync() => CloseAsync();

    private async Task<T> WatchAsync<T>(Func<TDevice, T> call)
    {
        try
        {
            var thread = Volatile.Read(ref _thread) ?? throw new BusLostException($"{device} is not open");
            var running = thread.CallAsync(call);
            await EndOrGiveUpAsync(thread, running);
            return await running;
        }
        finally
        {
            _turn.Release();
        }
    }

    private async Task EndOrGiveUpAsync(DeviceThread<TDevice> thread, Task running)
    {
        var began = wall.GetTimestamp();
        while (!running.IsCompleted)
        {
            var left = limits.Call - wall.GetElapsedTime(began);
            var leftOfTransfer = limits.Transfer - thread.Watch.Running;
            var wait = left < leftOfTransfer ? left : leftOfTransfer;
            if (wait <= TimeSpan.Zero)
            {
                // Once given up, an abandoned call that fails later has no one to go to.
                thread.GiveUp();
                Interlocked.CompareExchange(ref _thread, null, thread);
                _ = running.ContinueWith(static ended => ended.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
                throw new BusLostException(left <= TimeSpan.Zero
                    ? $"a sample on {device} took longer than {limits.Call.TotalSeconds:0.#} s"
                    : $"a transfer on {device} hung for longer than {limits.Transfer.TotalSeconds:0.#} s");
            }

            using var stop = new CancellationTokenSource();
            await Task.WhenAny(running, Task.Delay(wait, wall, stop.Token));
            await stop.CancelAsync();
        }
    }
}
