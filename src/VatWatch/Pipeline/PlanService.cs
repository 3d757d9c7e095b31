using Microsoft.Extensions.Logging;
using VatWatch.Plans;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>What people may do with plans. Nothing here switches anything. Thread safe.</summary>
/// <param name="store">Where plans are kept, on disk before an answer.</param>
/// <param name="zone">The site's clock on the wall.</param>
public sealed class PlanService(WatchStore store, IReadOnlySet<VatId> vats, WatchClock clock, TimeZoneInfo zone, ILogger<PlanService> log)
{
    private static readonly TimeSpan Limit = TimeSpan.FromSeconds(10);

    /// <summary>Keeps a warm-up in place of the one before, or drops it with null.</summary>
    /// <returns>Why it was not done, as a sentence; null when it was.</returns>
    public Task<string?> KeepAsync(VatId vat, KeptWarmPlan? plan, CancellationToken cancel) => WriteAsync(vat, work => PlanTable.Keep(work, vat, plan, clock.Now().Utc), cancel);

    /// <summary>Puts a warm-up off for the time that matters now.</summary>
    public Task<string?> PutOffAsync(VatId vat, CancellationToken cancel) => WriteAsync(
        vat,
        work =>
        {
            if (PlanTable.WarmUpOf(work, vat) is { } plan)
            {
                PlanTable.Keep(work, vat, plan.PutOff(clock.Now().Utc, zone), clock.Now().Utc);
            }
        },
        cancel);

    public Task<string?> KeepAsync(VatId vat, KeptDayPlan plan, CancellationToken cancel) => WriteAsync(vat, work => PlanTable.Keep(work, vat, plan, clock.Now().Utc), cancel);

    /// <summary>Keeps what was foretold of a warm-up, to be held against what comes.</summary>
    public Task<string?> KeepAsync(VatId vat, ForetoldWarmUp foretold, CancellationToken cancel) => WriteAsync(vat, work => PlanTable.Keep(work, vat, foretold, clock.Now().Utc), cancel);

    private async Task<string?> WriteAsync(VatId vat, Action<StoreTransaction> work, CancellationToken cancel)
    {
        if (!vats.Contains(vat))
        {
            return $"There is no vat '{vat}'.";
        }

        try
        {
            await store.WriteAsync(work, cancel).WaitAsync(Limit, TimeProvider.System, cancel);
            return null;
        }
        catch (Exception caught) when (caught is StoreUnavailableException or TimeoutException)
        {
            Log.PlanNotWritten(log, vat.Value, caught.Message);
            return "The plan could not be written to the disk; look at it and try again.";
        }
    }
}
