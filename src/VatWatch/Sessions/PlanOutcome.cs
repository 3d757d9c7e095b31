using VatWatch.Plans;
using VatWatch.Plans.Day;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>What plans foretold of a session, and what came. Immutable.</summary>
/// <param name="Warm">The warm-up before it; null when nobody wished for one.</param>
/// <param name="Day">The plan of the day; null without one.</param>
/// <param name="Added">What was added in the session, in the unit of each material.</param>
/// <param name="CooledK">Mean cooling by a dip that came, K; null when it was not measured.</param>
public sealed record PlanOutcome(WarmOutcome? Warm, KeptDayPlan? Day, IReadOnlyList<Dip> Dips, IReadOnlyDictionary<Material, double> Added, double? CooledK)
{
    /// <summary>Minutes beside a dip in which the liquor before and after it is looked for.</summary>
    private static readonly TimeSpan Beside = TimeSpan.FromMinutes(3);

    /// <summary>Reads it; null when nothing was planned.</summary>
    public static PlanOutcome? Read(StoreReader reader, VatDefinition vat, Session session)
    {
        var liquor = vat.Probes.FirstOrDefault(probe => probe.Quantity == Quantity.Temperature);
        var warm = WarmOutcome.Read(reader, vat, liquor?.Id, session);
        var day = PlanTable.DayOf(reader, vat.Id, session.Started.Utc);
        if (warm is null && day is null)
        {
            return null;
        }

        var tally = SessionTally.Of(EntryTable.Of(reader, vat.Id, session.Id));
        return new(
            warm,
            day,
            tally.Dips,
            tally.Added,
            liquor is null ? null : Cooling(reader, vat.Id, liquor.Id, tally.Dips));
    }

    /// <summary>What was foretold beside what came, in words.</summary>
    public IEnumerable<(string What, string Foretold, string Came)> Rows(DisplayUnits units, TimeZoneInfo zone)
    {
        foreach (var row in Warm?.Rows(units, zone) ?? [])
        {
            yield return row;
        }

        if (Day?.Plan is not { } plan)
        {
            yield break;
        }

        var foretold = plan.Dips.ToList();
        yield return ("Dips", $"{foretold.Count}", $"{Dips.Count}");
        if (Dips.LastOrDefault(dip => dip.Out is not null) is { Out: { } last })
        {
            yield return ("Last dip out", Clock(foretold[^1].Out), Clock(last.Utc));
        }

        var cooling = foretold.Average(dip => dip.LiquorC - dip.CooledC);
        if (CooledK is { } cooled)
        {
            yield return ("Cooling by a dip", units.Text(cooling, "K"), units.Text(cooled, "K"));
        }

        if (Between([.. foretold.Select(dip => (dip.In, (DateTimeOffset?)dip.Out))]) is { } wait && Between([.. Dips.Select(dip => (dip.In.Utc, dip.Out?.Utc))]) is { } came)
        {
            yield return ("From dip to dip", DisplayUnits.Duration(wait), DisplayUnits.Duration(came));
        }

        foreach (var material in Enum.GetValues<Material>())
        {
            var wanted = plan.Additions.SelectMany(one => one.Doses).Where(dose => dose.Material == material.Word()).Sum(dose => dose.Amount);
            var given = Added.GetValueOrDefault(material);
            if (wanted > 0 || given > 0)
            {
                yield return (material.Name().Capitalized(), material.Amount(wanted, units), material.Amount(given, units));
            }
        }

        string Clock(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, zone).ToString("HH:mm");
    }

    /// <summary>Mean time from goods out to goods in; null with fewer than two dips.</summary>
    private static TimeSpan? Between(IReadOnlyList<(DateTimeOffset In, DateTimeOffset? Out)> dips)
    {
        var waits = dips.Zip(dips.Skip(1), (one, next) => next.In - one.Out).OfType<TimeSpan>().ToList();
        return waits.Count == 0 ? null : TimeSpan.FromTicks((long)waits.Average(wait => wait.Ticks));
    }

    private static double? Cooling(StoreReader reader, VatId vat, ProbeId liquor, IReadOnlyList<Dip> dips)
    {
        var drops = new List<double>();
        foreach (var dip in dips.Where(dip => dip.Out is not null))
        {
            var minutes = reader.Rollups(vat, liquor, dip.In.Utc - Beside, dip.Out!.Value.Utc + Beside, quarters: false);
            var before = minutes.LastOrDefault(minute => minute.Mean is not null && minute.Start.AddMinutes(1) <= dip.In.Utc)?.Mean;
            var coldest = minutes.Where(minute => minute.Start >= dip.In.Utc).Select(minute => minute.Mean).Min();
            if (before - coldest is { } drop)
            {
                drops.Add(drop);
            }
        }

        return drops.Count == 0 ? null : drops.Average();
    }
}
