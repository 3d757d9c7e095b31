using VatWatch.Conditions.Reduction;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Sessions;

/// <summary>How the dips of the last weeks went, by log book and ORP: the next ones go much the same. Immutable.</summary>
/// <param name="Length">Middle time in the liquor; null without a dip.</param>
/// <param name="Recovery">Middle time from goods out to ORP back where it was before; null where none was seen to come back.</param>
public sealed record SeenDips(TimeSpan? Length, TimeSpan? Recovery)
{
    /// <summary>How far back a dip still tells of the next.</summary>
    private static readonly TimeSpan Lookback = TimeSpan.FromDays(28);

    /// <summary>So many of the last are heard, and fewer than the least say nothing.</summary>
    private const int MostHeard = 24;
    private const int LeastHeard = 3;

    /// <summary>ORP before a dip is that of so long before; what is not back after the longest is another matter than a dip.</summary>
    private static readonly TimeSpan Before = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(90);

    /// <summary>Nothing was seen.</summary>
    public static SeenDips None { get; } = new(null, null);

    /// <summary>Reads it from the store.</summary>
    public static SeenDips Read(StoreReader reader, VatDefinition vat, DateTimeOffset now)
    {
        var dips = SessionTally.Of(EntryTable.Between(reader, vat.Id, now - Lookback, now)).Dips.Where(dip => dip.Out is not null).ToList();
        var orp = vat.Probes.FirstOrDefault(probe => probe.Quantity == Quantity.Orp);
        var back = new List<TimeSpan>();
        for (var i = Math.Max(0, dips.Count - MostHeard); orp is not null && i < dips.Count; i++)
        {
            if (Back(reader, vat.Id, orp.Id, dips[i], i + 1 < dips.Count ? dips[i + 1].In.Utc : now) is { } time)
            {
                back.Add(time);
            }
        }

        return new(Middle([.. dips.TakeLast(MostHeard).Select(dip => dip.Length!.Value)]), Middle(back));
    }

    /// <summary>Time from goods out until ORP is back; null when it was not before the next dip, and when the dip did not move it.</summary>
    private static TimeSpan? Back(StoreReader reader, VatId vat, ProbeId orp, Dip dip, DateTimeOffset until)
    {
        var outAt = dip.Out!.Value.Utc;
        var end = until < outAt + Longest ? until : outAt + Longest;
        var minutes = reader.Rollups(vat, orp, dip.In.Utc - Before, end, quarters: false).Where(minute => minute.Mean is not null).ToList();
        var before = minutes.Where(minute => minute.Start.AddMinutes(1) <= dip.In.Utc).Select(minute => minute.Mean!.Value).DefaultIfEmpty(double.NaN).Average();
        var peak = minutes.Where(minute => minute.Start >= dip.In.Utc).Select(minute => minute.Mean!.Value).DefaultIfEmpty(double.NaN).Max();
        if (!(peak > before + OrpTransient.BackMillivolts))
        {
            return null;
        }

        var level = OrpTransient.BackAt(before, peak - before);
        return minutes.FirstOrDefault(minute => minute.Start >= outAt && minute.Mean <= level) is { } first ? first.Start - outAt : null;
    }

    private static TimeSpan? Middle(List<TimeSpan> times) => times.Count < LeastHeard ? null : times.Order().ElementAt(times.Count / 2);
}
