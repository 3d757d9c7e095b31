using VatWatch.Sessions.Entries;

namespace VatWatch.Sessions;

/// <summary>What the entries of a session add up to. Withdrawn ones do not count.</summary>
/// <param name="Dips">Dips, with the moment the goods went in and, once they are out, the moment they came out.</param>
/// <param name="Added">Sum of each material, in its unit.</param>
public sealed record SessionTally(IReadOnlyList<Dip> Dips, IReadOnlyDictionary<Material, double> Added)
{
    /// <summary>Since when the goods are in the liquor; null while they are not.</summary>
    public Stamp? InSince => Dips is [.., { Out: null } last] ? last.In : null;

    /// <summary>Middle length of the dips that are over; null before the first is.</summary>
    public TimeSpan? UsualDip => Middle(Dips.Select(dip => dip.Length));

    /// <summary>Middle time between one dip and the next; null before the second.</summary>
    public TimeSpan? UsualAiring => Middle(Dips.Zip(Dips.Skip(1), (first, next) => next.In.Utc - first.Out?.Utc));

    public TimeSpan InLiquor => Dips.Aggregate(TimeSpan.Zero, (sum, dip) => sum + (dip.Length ?? TimeSpan.Zero));

    /// <summary>Adds up entries, oldest first.</summary>
    public static SessionTally Of(IEnumerable<SessionEntry> entries)
    {
        var dips = new List<Dip>();
        var added = new SortedDictionary<Material, double>();
        foreach (var entry in entries.Where(entry => entry.Withdrawn is null))
        {
            switch (entry.Kind)
            {
                case EntryKind.DipIn when dips is [] or [.., { Out: not null }]:
                    dips.Add(new Dip(entry.At, null));
                    break;
                case EntryKind.DipOut when dips is [.., { Out: null } last]:
                    dips[^1] = last with { Out = entry.At };
                    break;
                case EntryKind.Added when entry is { Material: { } material, Amount: { } amount }:
                    added[material] = added.GetValueOrDefault(material) + amount;
                    break;
            }
        }

        return new SessionTally(dips, added);
    }

    private static TimeSpan? Middle(IEnumerable<TimeSpan?> times) =>
        times.OfType<TimeSpan>().Where(time => time > TimeSpan.Zero).Order().ToList() is { Count: > 0 } known ? known[known.Count / 2] : null;
}
