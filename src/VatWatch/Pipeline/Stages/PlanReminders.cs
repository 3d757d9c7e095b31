using VatWatch.Plans;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Pipeline.Stages;

/// <summary>Works out again and again when each kept plan wants the heater on, and tells the vat's watcher, whose alarm reminds people.</summary>
/// <param name="feed">The newest condition of each vat, and its clock.</param>
/// <param name="tell">Takes what a plan wants; null for nothing.</param>
/// <param name="keep">Keeps what was foretold of a warm-up that begins; gives why not, or null.</param>
/// <param name="time">The wall's clock.</param>
internal sealed class PlanReminders(
    Func<StoreReader> openReader, ILiveFeed feed, Action<VatId, HeaterDue?> tell, Func<VatId, ForetoldWarmUp, CancellationToken, Task<string?>> keep, TimeZoneInfo zone, TimeProvider time)
{
    /// <summary>Warm-ups of weeks are read again after this.</summary>
    private static readonly TimeSpan SeenLasts = TimeSpan.FromMinutes(10);

    private readonly Dictionary<VatId, HeaterDue> _told = [];
    private readonly Dictionary<VatId, (long At, SeenHeat Seen)> _seen = [];
    private readonly Dictionary<VatId, ForetoldWarmUp> _kept = [];

    /// <summary>Looks at every kept plan.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read; what was told before stands.</exception>
    public async Task RunOnceAsync(CancellationToken cancel)
    {
        foreach (var (vat, foretold) in LookOnce())
        {
            if (await keep(vat, foretold, cancel) is null)
            {
                _kept[vat] = foretold;
            }
        }
    }

    /// <summary>Tells what the plans want, and gives what was foretold of the warm-ups that begin.</summary>
    private List<(VatId Vat, ForetoldWarmUp Foretold)> LookOnce()
    {
        var begun = new List<(VatId, ForetoldWarmUp)>();
        using var reader = openReader();
        var plans = PlanTable.WarmUps(reader);
        foreach (var live in feed.Vats)
        {
            var vat = live.Definition.Id;
            var (due, done) = plans.GetValueOrDefault(vat) is { } plan ? Due(reader, live, plan) : default;
            if (due != _told.GetValueOrDefault(vat))
            {
                tell(vat, due);
            }

            if (Begun(vat, due, done) is { } foretold)
            {
                begun.Add((vat, foretold));
            }

            if (due is null)
            {
                _told.Remove(vat);
            }
            else
            {
                _told[vat] = due;
            }
        }

        return begun;
    }

    /// <summary>What was said when the heater became due, or last before it went on earlier; null where it is neither due nor on, and once that is kept.</summary>
    private ForetoldWarmUp? Begun(VatId vat, HeaterDue? due, DateTimeOffset? done)
    {
        var said = done is not null && _told.GetValueOrDefault(vat) is { } told && told.Ready == done ? told : due;
        var isBegun = done is not null || due?.SwitchOn <= feed.Clock.Now().Utc;
        return isBegun && said?.Foretold is { } foretold && !(_kept.GetValueOrDefault(vat) is { } kept && kept.Wish == foretold.Wish && kept.TargetC.Equals(foretold.TargetC)) ? foretold : null;
    }

    /// <summary>The heater as the plan wants it, or the wish for which it was entered as on.</summary>
    private (HeaterDue? Due, DateTimeOffset? Done) Due(StoreReader reader, LiveVat live, KeptWarmPlan plan)
    {
        var now = feed.Clock.Now().Utc;
        if (plan.Next(now, zone) is not { } ready)
        {
            return default;
        }

        if (SwitchedHeater.For(reader, live.Definition.Id, plan, ready, zone) is not null)
        {
            return (null, ready);
        }

        // While nothing can be said, what was said last of the same wish stands.
        return (LiveWarmPlan.Due(live.Definition, live.Condition, Seen(reader, live.Definition, now), ready, plan.TargetC, plan.HeaterWatts, zone)
            ?? (_told.GetValueOrDefault(live.Definition.Id) is { } before && before.Ready == ready && before.TargetC.Equals(plan.TargetC) ? before : null), null);
    }

    private SeenHeat Seen(StoreReader reader, VatDefinition vat, DateTimeOffset now)
    {
        if (!_seen.TryGetValue(vat.Id, out var kept) || time.GetElapsedTime(kept.At) > SeenLasts)
        {
            _seen[vat.Id] = kept = (time.GetTimestamp(), SeenHeat.Read(reader, vat, now));
        }

        return kept.Seen;
    }
}
