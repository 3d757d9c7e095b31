namespace VatWatch.Daemon.Service;

/// <summary>
/// Tells the service manager when the watch is ready and when it stops, and feeds its watchdog while every stage makes progress. When one does
/// not, it is no longer fed, and the manager kills this process and starts it again: better a watch that begins anew than one that looks alive.
/// </summary>
internal sealed class ServiceNotifier(
    ServiceSocket manager, Func<IReadOnlyList<string>> stuck, IHostApplicationLifetime lifetime, TimeProvider time, ILogger<ServiceNotifier> log) : BackgroundService
{
    /// <summary>Fed this many times as often as the manager asks, so that one feeding may come late.</summary>
    private const int Oftener = 4;

    private string _stuck = "";

    /// <summary>One look: feeds the watchdog, or says once which stage keeps it from being fed. False when it was not fed.</summary>
    public bool Feed()
    {
        var names = string.Join(", ", stuck());
        if (names != _stuck)
        {
            _stuck = names;
            if (names.Length > 0)
            {
                Log.Stuck(log, names);
                manager.Tell($"STATUS=No progress: {names}");
            }
            else
            {
                Log.Unstuck(log);
                manager.Tell("STATUS=Watching");
            }
        }

        return names.Length == 0 && manager.Tell("WATCHDOG=1");
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var stopping = lifetime.ApplicationStopping.Register(() => manager.Tell("STOPPING=1"));
        var started = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await using var ready = lifetime.ApplicationStarted.Register(() => started.TrySetResult());
        await started.Task.WaitAsync(stoppingToken);
        manager.Tell("READY=1\nSTATUS=Watching");
        if (manager.Watchdog is not { } watchdog)
        {
            return;
        }

        using var timer = new PeriodicTimer(watchdog / Oftener, time);
        do
        {
            Feed();
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }
}
