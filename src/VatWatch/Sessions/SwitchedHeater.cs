using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>A heater that was entered as on for a wish. Immutable.</summary>
/// <param name="On">The entry.</param>
/// <param name="OffUtc">When it was entered as off after that; null while it was not.</param>
public sealed record SwitchedHeater(SessionEntry On, DateTimeOffset? OffUtc)
{
    /// <summary>A heater that was switched on longer before the vat should be warm was not switched on for that.</summary>
    private static readonly TimeSpan LongestWarmUp = TimeSpan.FromHours(24);

    /// <summary>A heater that goes off so long before the vat should be warm was on for something else.</summary>
    private static readonly TimeSpan LongBefore = TimeSpan.FromHours(3);

    /// <summary>
    /// The newest for a time, null for none. One that was switched off again is a person's choice. An entry that says no time is for the wish that was next then, unless it ended long before.
    /// </summary>
    /// <param name="ready">When the vat should be warm, UTC.</param>
    public static SwitchedHeater? For(StoreReader reader, VatId vat, KeptWarmPlan plan, DateTimeOffset ready, TimeZoneInfo zone)
    {
        var switched = EntryTable.Between(reader, vat, ready - LongestWarmUp, ready + KeptWarmPlan.Grace)
            .Where(entry => entry is { Kind: EntryKind.HeaterOn or EntryKind.HeaterOff, Withdrawn: null }).ToList();
        return switched.Where(entry => entry.Kind == EntryKind.HeaterOn && plan.IsFor(ready, entry.At.Utc, entry.ReadyBy, zone))
            .Select(on => new SwitchedHeater(on, switched.Find(off => off.Kind == EntryKind.HeaterOff && off.At.Utc > on.At.Utc)?.At.Utc))
            .LastOrDefault(heater => heater.On.ReadyBy is not null || !(heater.OffUtc < ready - LongBefore));
    }
}
