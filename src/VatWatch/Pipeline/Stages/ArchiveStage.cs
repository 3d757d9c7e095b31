using Microsoft.Extensions.Logging;
using VatWatch.Pipeline.Supervision;
using VatWatch.Store;
using VatWatch.Store.Archive;

namespace VatWatch.Pipeline.Stages;

/// <summary>Moves old months to the archive, in the background and never while the clock is not trusted.</summary>
internal sealed class ArchiveStage(Archiver archiver, WatchClock clock, TimeProvider time, ILogger<ArchiveStage> log) : IStage
{
    /// <summary>A start has better things to do.</summary>
    private static readonly TimeSpan First = TimeSpan.FromMinutes(10);

    private static readonly TimeSpan Period = TimeSpan.FromHours(1);

    public string Name => "archive";

    /// <summary>A month takes minutes on a slow card; several may be due at once.</summary>
    public Pulse Pulse { get; } = new(TimeSpan.FromHours(6), time);

    public async Task RunAsync(CancellationToken cancel)
    {
        await Task.Delay(First, time, cancel);
        while (true)
        {
            Pulse.Tick();
            await PassAsync(cancel);
            Pulse.Rest();
            await Task.Delay(Period, time, cancel);
        }
    }

    private async Task PassAsync(CancellationToken cancel)
    {
        var now = clock.Now();
        if (!now.UtcTrusted)
        {
            return;
        }

        try
        {
            await archiver.RunOnceAsync(now.Utc, cancel);
        }
        catch (StoreUnavailableException caught)
        {
            Log.ArchiveWaits(log, caught.Message);
        }
    }
}
