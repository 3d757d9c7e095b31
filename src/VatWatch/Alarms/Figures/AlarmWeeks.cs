using VatWatch.Alarms.Journal;
using VatWatch.Store;

namespace VatWatch.Alarms.Figures;

/// <summary>Reads the figures of the last weeks from the journal.</summary>
public static class AlarmWeeks
{
    /// <summary>Most weeks that can be asked for: half a year.</summary>
    public const int Most = 26;

    private static readonly TimeSpan Week = TimeSpan.FromDays(7);

    /// <summary>The last <paramref name="count"/> stretches of seven days, the newest first; the newest ends at <paramref name="now"/>.</summary>
    /// <param name="now">The present, UTC.</param>
    /// <param name="count">1 to <see cref="Most"/>.</param>
    public static IReadOnlyList<AlarmWeek> Read(StoreReader reader, DateTimeOffset now, int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, Most);
        return [.. Enumerable.Range(0, count).Select(back => Between(reader, now - ((back + 1) * Week), now - (back * Week)))];
    }

    private static AlarmWeek Between(StoreReader reader, DateTimeOffset from, DateTimeOffset to) =>
        AlarmFigures.Of(AlarmJournal.Opening(reader, from), AlarmJournal.Changes(reader, null, from, to), from, to);
}
