using System.Diagnostics;
using System.Globalization;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// What a service manager does for the daemon, in small: starts it with a notification socket, ends it when its watchdog is not fed in time, and starts it
/// again whenever it has ended. As systemd does, it asks with SIGABRT, lets a stopped process go on to hear that, and then uses SIGKILL.
/// </summary>
internal sealed class ServiceManagerStandIn : IAsyncDisposable
{
    private static readonly TimeSpan Grace = TimeSpan.FromSeconds(2);

    private readonly NotifyListener _socket = new();
    private readonly CancellationTokenSource _stop = new();
    private readonly Studio _studio;
    private readonly TimeSpan _watchdog;
    private readonly Task _loop;
    private volatile VatWatchProcess? _process;
    private int _ready;
    private int _unfed;

    public ServiceManagerStandIn(Studio studio, TimeSpan watchdog)
    {
        _studio = studio;
        _watchdog = watchdog;
        _loop = Task.Run(KeepRunningAsync);
    }

    /// <summary>The process of now.</summary>
    public VatWatchProcess Process => _process ?? throw new InvalidOperationException("not started yet");

    /// <summary>How often a process has said that it is ready.</summary>
    public int Ready => Volatile.Read(ref _ready);

    /// <summary>How often one was ended because it did not feed the watchdog.</summary>
    public int Unfed => Volatile.Read(ref _unfed);

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _loop.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (_process is not null)
        {
            UnixSignal.Send(_process.Id, UnixSignal.Continue);
            await _process.DisposeAsync();
        }

        _socket.Dispose();
        _stop.Dispose();
    }

    private async Task KeepRunningAsync()
    {
        while (!_stop.IsCancellationRequested)
        {
            _process = VatWatchProcess.StartOther(
                VatWatchProcess.Binary,
                new Dictionary<string, string>
                {
                    ["NOTIFY_SOCKET"] = _socket.Address,
                    ["WATCHDOG_USEC"] = ((long)_watchdog.TotalMicroseconds).ToString(CultureInfo.InvariantCulture),
                },
                "run", "--config", _studio.Config);
            await WatchAsync(_process);
        }
    }

    /// <summary>Until the process has ended, by itself or because it was made to.</summary>
    private async Task WatchAsync(VatWatchProcess process)
    {
        var ready = false;
        for (var fed = Stopwatch.StartNew(); !process.HasExited && !_stop.IsCancellationRequested;)
        {
            while (_socket.Waits)
            {
                var told = await _socket.HearAsync();
                if (told.StartsWith("READY=1", StringComparison.Ordinal))
                {
                    ready = true;
                    Interlocked.Increment(ref _ready);
                }

                fed.Restart();
            }

            if (ready && fed.Elapsed > _watchdog)
            {
                Interlocked.Increment(ref _unfed);
                await EndAsync(process);
                return;
            }

            await Task.Delay(20, _stop.Token);
        }
    }

    private async Task EndAsync(VatWatchProcess process)
    {
        UnixSignal.Send(process.Id, UnixSignal.Abort);
        UnixSignal.Send(process.Id, UnixSignal.Continue);
        for (var grace = Stopwatch.StartNew(); !process.HasExited && grace.Elapsed < Grace;)
        {
            await Task.Delay(20, _stop.Token);
        }

        UnixSignal.Send(process.Id, UnixSignal.Kill);
        for (var grace = Stopwatch.StartNew(); !process.HasExited && grace.Elapsed < Grace;)
        {
            await Task.Delay(20, _stop.Token);
        }
    }
}
