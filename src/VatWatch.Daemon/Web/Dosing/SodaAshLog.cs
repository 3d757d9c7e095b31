using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>Soda ash that the log book knows of in a vat. It begins where the liquor was made anew; where that was not written down the dyer may correct it.</summary>
/// <param name="Grams">Sum, g; above 0.</param>
/// <param name="Since">The first addition counted, UTC.</param>
/// <param name="Additions">How many.</param>
public sealed record SodaAshLog(double Grams, DateTimeOffset Since, int Additions)
{
    /// <summary>Additions longer ago are another liquor's: a vat is made anew well within this.</summary>
    public static TimeSpan Reach { get; } = TimeSpan.FromDays(60);

    /// <summary>Adds up entries; null when no soda ash was logged.</summary>
    public static SodaAshLog? Of(IEnumerable<SessionEntry> entries)
    {
        var standing = entries.Where(entry => entry.Withdrawn is null).ToList();
        var anew = standing.FindLastIndex(entry => entry.Kind == EntryKind.MadeAnew);
        var counted = standing.Skip(anew + 1).Where(entry => entry is { Kind: EntryKind.Added, Material: Material.SodaAsh, Amount: > 0 }).ToList();
        return counted.Count > 0 ? new(counted.Sum(entry => entry.Amount!.Value), counted.Min(entry => entry.At.Utc), counted.Count) : null;
    }
}
