using VatWatch.Plans;
using VatWatch.Plans.Day;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>What plans foretold of a session, and what came. Immutable.</summary>
/// <param name="WishedBy">When the vat was to be warm by the heater's entry, UTC; null without such a wish.</param>
/// <param name="WarmAt">When the liquor came into its band after that entry, UTC; null when it did not.</param>
/// <param name="Day">The plan of the day; null without one.</param>
/// <param name="Added">What was added in the session, in the unit of each material.</param>
/// <param name="CooledK">Mean cooling by a dip that came, K; null when it was not measured.</param>
public sealed record PlanOutcome(DateTimeOffset? WishedBy, DateTimeOffset? WarmAt, KeptDayPlan? Day, IReadOnlyList<Dip> Dips, IReadOnlyDictionary<Material, double> Added, double? CooledK)
{
    /// <summary>A heater that was switched on longer before has nothing to do with a session.</summary>
    private static readonly TimeSpan LongestWarmUp = TimeSpan.FromHours(24);

    /// <summary>Minutes beside a dip in which the liquor before and after it is looked for.</summary>
    private static readonly TimeSpan Beside = TimeSpan.FromMinutes(3);

    /// <summary>Reads it; null when nothing was planned.</summary>
    public static PlanOutcome? Read(StoreReader reader, VatDefinition vat, Session session)
    {
        var to = session.Ended ?? session.Started.Utc + LongestWarmUp;
        var begun = EntryTable.Between(reader, vat.Id, session.Started.Utc - LongestWarmUp, to)
            .LastOrDefault(entry => entry is { Kind: EntryKind.HeaterOn, Withdrawn: null, ReadyBy: not null });
        var day = PlanTable.DayOf(reader, vat.Id, session.Started.Utc);
        if (begun is null && day is null)
        {
            return null;
        }

        var tally = SessionTally.Of(EntryTable.Of(reader, vat.Id, session.Id));
        var liquor = vat.Probes.FirstOrDefault(probe => probe.Quantity == Quantity.Temperature);
        return new(
            begun?.ReadyBy,
            begun is not null && liquor is not null ? WarmSince(reader, vat, liquor.Id, begun.At.Utc, to) : null,
            day,
            tally.Dips,
            tally.Added,
            liquor is null ? null : Cooling(reader, vat.Id, liquor.Id, tally.Dips));
    }

    /// <summary>What was foretold beside what came, in words.</summary>
    public IEnumerable<(string What, string Foretold, string Came)> Rows(DisplayUnits units, TimeZoneInfo zone)
    {
        if (WishedBy is { } wish)
        {
            yield return ("Warm", $"by {Clock(wish)}", WarmAt is { } at ? $"at {Clock(at)}" : "not in this time");
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
                yield return ($"{char.ToUpperInvariant(material.Name()[0])}{material.Name()[1..]}", material.Amount(wanted, units), material.Amount(given, units));
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

    private static DateTimeOffset? WarmSince(StoreReader reader, VatDefinition vat, ProbeId liquor, DateTimeOffset from, DateTimeOffset to) =>
        reader.Rollups(vat.Id, liquor, from, to, quarters: false).FirstOrDefault(minute => minute.Mean >= vat.Temperature.LowC)?.Start;

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
