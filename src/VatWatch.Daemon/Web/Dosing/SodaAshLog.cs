using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.Dosing;

/// <summary>Soda ash that the log book knows of in a vat. It cannot know when the liquor was made anew, so the dyer may correct it.</summary>
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
        var counted = entries.Where(entry => entry is { Withdrawn: null, Kind: EntryKind.Added, Material: Material.SodaAsh, Amount: > 0 }).ToList();
        return counted.Count > 0 ? new(counted.Sum(entry => entry.Amount!.Value), counted.Min(entry => entry.At.Utc), counted.Count) : null;
    }
}
