using System.Collections.Concurrent;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace VatWatch.Pipeline.Supervision;

/// <summary>
/// Runs every stage, starts a failed one again with growing waits, and stops the daemon when one fails too often in a row. The first
/// stages are stopped last, so that what later stages hand down is still taken.
/// </summary>
public sealed class StageSupervisor(
    IReadOnlyList<IStage> stages,
    StageOptions options,
    TimeProvider time,
    IHostApplicationLifetime lifetime,
    ILogger<StageSupervisor> log) : IHostedService, IDisposable
{
    /// <summary>A stage that does not stop within this is left behind. Below the host's own limit.</summary>
    private static readonly TimeSpan StopLimit = TimeSpan.FromSeconds(5);

    private readonly ConcurrentDictionary<string, StageHealth> _health = new();
    private readonly List<(IStage Stage, CancellationTokenSource Stop, Task Running)> _running = [];

    /// <summary>Health of every stage, in order of start.</summary>
    public IReadOnlyList<StageHealth> Health =>
        [.. stages.Select(stage => _health.GetValueOrDefault(stage.Name) ?? new StageHealth(stage.Name, false, 0, null))];

    /// <summary>Names of the stages that make no progress; none in a healthy run. A stage that failed and waits for its next start is not stuck.</summary>
    public IReadOnlyList<string> Stuck => [.. stages.Where(stage => stage.Pulse.IsStuck).Select(stage => stage.Name)];

    /// <summary>True after a stage failed too often; the process must end with a failure code.</summary>
    public bool HasGivenUp { get; private set; }

    /// <summary>Told about each failure: the stage's name and what happened.</summary>
    public event Action<string, string>? StageFailed;

    public Task StartAsync(CancellationToken cancellationToken)
    {
        foreach (var stage in stages)
        {
            var stop = new CancellationTokenSource();
            _running.Add((stage, stop, Task.Run(() => KeepRunningAsync(stage, stop.Token), CancellationToken.None)));
        }

        return Task.CompletedTask;
    }

    public async Task StopAsync(CancellationToken cancellationToken)
    {
        foreach (var (stage, stop, running) in Enumerable.Reverse(_running))
        {
            await stop.CancelAsync();
            try
            {
                await running.WaitAsync(StopLimit, time, CancellationToken.None);
            }
            catch (TimeoutException)
            {
                Log.LeftBehind(log, stage.Name, StopLimit.TotalSeconds);
            }
        }
    }

    public void Dispose() => _running.ForEach(entry => entry.Stop.Dispose());

    private async Task KeepRunningAsync(IStage stage, CancellationToken stop)
    {
        var failuresInARow = 0;
        while (!stop.IsCancellationRequested)
        {
            _health[stage.Name] = HealthOf(stage) with { IsRunning = true };
            var started = time.GetTimestamp();
            var fault = await RunOnceAsync(stage, stop);
            stage.Pulse.Rest();
            if (stop.IsCancellationRequested)
            {
                break;
            }

            failuresInARow = time.GetElapsedTime(started) >= options.WellAfter ? 1 : failuresInARow + 1;
            _health[stage.Name] = HealthOf(stage) with { IsRunning = false, LastFault = fault };
            StageFailed?.Invoke(stage.Name, fault);
            if (failuresInARow >= options.GiveUpAfter)
            {
                HasGivenUp = true;
                Log.GivingUp(log, stage.Name, failuresInARow, fault);
                lifetime.StopApplication();
                return;
            }

            await WaitAsync(stage, failuresInARow, fault, stop);
        }

        _health[stage.Name] = HealthOf(stage) with { IsRunning = false };
    }

    private async Task WaitAsync(IStage stage, int failuresInARow, string fault, CancellationToken stop)
    {
        var wait = TimeSpan.FromTicks(Math.Min(options.LongestWait.Ticks, options.FirstWait.Ticks << Math.Min(failuresInARow - 1, 16)));
        Log.Restarting(log, stage.Name, fault, wait.TotalSeconds);
        try
        {
            await Task.Delay(wait, time, stop);
            _health[stage.Name] = HealthOf(stage) with { Restarts = HealthOf(stage).Restarts + 1 };
        }
        catch (OperationCanceledException)
        {
            // Stopping; the loop sees it.
        }
    }

    private async Task<string> RunOnceAsync(IStage stage, CancellationToken stop)
    {
        try
        {
            await stage.RunAsync(stop);
            return "it ended by itself";
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            return "stopped";
        }
        catch (Exception e)
        {
            Log.Failed(log, e, stage.Name);
            return $"{e.GetType().Name}: {e.Message}";
        }
    }

    private StageHealth HealthOf(IStage stage) => _health.GetValueOrDefault(stage.Name) ?? new StageHealth(stage.Name, false, 0, null);
}

/// <summary>How one stage is doing.</summary>
/// <param name="Stage">Its name.</param>
/// <param name="IsRunning">Whether it runs now.</param>
/// <param name="Restarts">How often it was started again in this run of the daemon.</param>
/// <param name="LastFault">What ended it the last time, in words; null when nothing did.</param>
public sealed record StageHealth(string Stage, bool IsRunning, long Restarts, string? LastFault);

/// <summary>How failed stages are started again.</summary>
public sealed record StageOptions
{
    /// <summary>Wait before the first restart; doubles with each failure in a row. Default 1 s.</summary>
    public TimeSpan FirstWait { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest wait. Default 30 s.</summary>
    public TimeSpan LongestWait { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>A stage that ran this long is well again. Default 60 s.</summary>
    public TimeSpan WellAfter { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Failures in a row after which the daemon gives up and leaves it to the service manager. Default 8.</summary>
    public int GiveUpAfter { get; init; } = 8;
}
