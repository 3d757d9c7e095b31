using Microsoft.Extensions.Logging;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>
/// Takes the same turn again and again, the first at once. A store that cannot be used now is no failure of the stage: it is logged once, and the next
/// turn tries again.
/// </summary>
/// <param name="name">A word for logs, health and metrics.</param>
/// <param name="period">Time from one turn to the next.</param>
/// <param name="limit">Longest time that one turn may take; long for one that waits for the disk, because a new start would not mend it.</param>
/// <param name="time">The wall's clock.</param>
/// <param name="log">Where a store that cannot be used is told.</param>
internal sealed class PeriodicStage(string name, TimeSpan period, TimeSpan limit, Func<CancellationToken, Task> turn, TimeProvider time, ILogger<PeriodicStage> log) : IStage
{
    private static readonly TimeSpan LastTurnLimit = TimeSpan.FromSeconds(2);

    private bool _isWaiting;

    public string Name => name;

    public Pulse Pulse { get; } = new(limit, time);

    /// <summary>Taken once more, for at most 2 s, when the stage is stopped; null for nothing.</summary>
    public Func<CancellationToken, Task>? LastTurn { get; init; }

    public async Task RunAsync(CancellationToken cancel)
    {
        using var timer = new PeriodicTimer(period, time);
        try
        {
            do
            {
                Pulse.Tick();
                await TakeAsync(turn, cancel);
            }
            while (await timer.WaitForNextTickAsync(cancel));
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested && LastTurn is not null)
        {
            using var last = new CancellationTokenSource(LastTurnLimit, time);
            await TakeLastAsync(LastTurn, last.Token);
            throw;
        }
    }

    private async Task TakeLastAsync(Func<CancellationToken, Task> what, CancellationToken cancel)
    {
        try
        {
            await TakeAsync(what, cancel);
        }
        catch (OperationCanceledException)
        {
            Log.StageWaits(log, name, period.TotalSeconds, $"it took longer than {LastTurnLimit.TotalSeconds} s at the end");
        }
    }

    private async Task TakeAsync(Func<CancellationToken, Task> what, CancellationToken cancel)
    {
        try
        {
            await what(cancel);
            _isWaiting = false;
        }
        catch (StoreUnavailableException caught)
        {
            if (!_isWaiting)
            {
                Log.StageWaits(log, name, period.TotalSeconds, caught.Message);
            }

            _isWaiting = true;
        }
    }
}
