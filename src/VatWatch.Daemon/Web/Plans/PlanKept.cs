using VatWatch.Conditions.Heating;
using VatWatch.Ledger;
using VatWatch.Plans;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Plans;

/// <summary>What the store has for the page of plans of one vat.</summary>
/// <param name="Day">The plan of today.</param>
/// <param name="Seen">What its thermometer showed lately.</param>
/// <param name="Heater">The heater as it was entered for the wish that matters now; null while it was not.</param>
/// <param name="DipsEnded">When the goods came out of each dip of today's session, UTC.</param>
/// <param name="InSince">Since when goods are in the vat, UTC.</param>
internal sealed record PlanKept(
    KeptWarmPlan? Warm,
    KeptDayPlan? Day,
    SeenHeat Seen,
    LearnedHeat? Learned,
    SwitchedHeater? Heater,
    IReadOnlyList<DateTimeOffset> DipsEnded,
    DateTimeOffset? InSince)
{
    /// <summary>What is in the vat by its ledger; null where nobody asked.</summary>
    public VatBalance? Contents { get; init; }

    /// <summary>How its dips went lately; nothing where nobody asked.</summary>
    public SeenDips Dips { get; init; } = SeenDips.None;

    /// <summary>Reads it with what is in the vat and how its dips went.</summary>
    public static PlanKept ReadAll(StoreReader reader, VatDefinition vat, DateTimeOffset now, TimeZoneInfo zone) => Read(reader, vat, now, zone) with
    {
        Contents = VatLedger.At(StoredLedger.Read(reader, vat, DisplayUnits.Si), now),
        Dips = SeenDips.Read(reader, vat, now),
    };

    public static PlanKept Read(StoreReader reader, VatDefinition vat, DateTimeOffset now, TimeZoneInfo zone)
    {
        var warm = PlanTable.WarmUps(reader).GetValueOrDefault(vat.Id);
        var day = PlanTable.DayOf(reader, vat.Id, now);
        var dips = day is null ? [] : EntryTable.Between(reader, vat.Id, day.Plan.Begins.AddHours(-1), now.AddMinutes(1)).Where(entry => entry.Withdrawn is null).ToList();
        var last = dips.LastOrDefault(entry => entry.Kind is EntryKind.DipIn or EntryKind.DipOut);
        return new(
            warm,
            day,
            SeenHeat.Read(reader, vat, now),
            LearnedHeatTable.All(reader).GetValueOrDefault(vat.Id),
            warm?.Next(now, zone) is { } ready ? SwitchedHeater.For(reader, vat.Id, warm, ready, zone) : null,
            [.. dips.Where(entry => entry.Kind == EntryKind.DipOut).Select(entry => entry.At.Utc)],
            last is { Kind: EntryKind.DipIn } ? last.At.Utc : null);
    }
}
