using VatWatch.Daemon.Web.Pages;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>The log book of one vat as its page shows it.</summary>
/// <param name="IsReadable">Whether the store could be read.</param>
/// <param name="Sheet">The open session; null without one.</param>
/// <param name="Recent">What stands of the last day, in and out of sessions, oldest first.</param>
public sealed record LogBookView(bool IsReadable, SessionSheet? Sheet, IReadOnlyList<SessionEntry> Recent)
{
    private static readonly TimeSpan Day = TimeSpan.FromHours(24);

    /// <summary>What was written last, whenever it happened; null when nothing was.</summary>
    public SessionEntry? Last => Recent.MaxBy(entry => entry.Id);

    /// <summary>Whether goods are in the liquor.</summary>
    public bool IsIn => Sheet?.Tally.InSince is not null;

    internal static async Task<LogBookView> ReadAsync(StoreQueries store, VatId vat, DateTimeOffset now, CancellationToken cancel)
    {
        var (isReadable, read) = await store.TryReadAsync(
            reader => (SessionSheet.Open(reader, vat, now), EntryTable.Between(reader, vat, now - Day, now.AddMinutes(1))), cancel);
        return new(isReadable, read.Item1, [.. (read.Item2 ?? []).Where(entry => entry.Withdrawn is null)]);
    }

    /// <summary>The clock of the dose, the dip or the airing that goes on; null where nothing does.</summary>
    public DipClock? Clock(LocalClock clock) => DipClock.OfDose(Recent, clock) is { } dose ? dose : Sheet is null ? null : DipClock.Of(Sheet.Tally, Sheet.Session.Details.Wish, clock.Now.Utc);
}
