using VatWatch.Sessions.Entries;

namespace VatWatch.Ledger.Doses;

/// <summary>
/// A dose of the log book with quiet before it and after its wait, so that what the probes showed in between is its answer. Immutable.
/// </summary>
/// <param name="Index">Place of its first portion among the standing entries.</param>
/// <param name="Grams">What went in, g.</param>
/// <param name="Before">From when to when the probes are read before it.</param>
internal sealed record PastDose(int Index, double Grams, PastDose.Span Before, PastDose.Span After)
{
    /// <summary>Readings are averaged over so long, and over less where something else happened; over less than the least they say nothing.</summary>
    private static readonly TimeSpan Averaged = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(5);

    /// <summary>After anything but the same dose a vat is left alone so long before its readings count: air of a dip is eaten, and liquor mixed.</summary>
    private static readonly TimeSpan Recovery = TimeSpan.FromMinutes(20);

    /// <summary>
    /// Every dose of a kind that has quiet about it, oldest first. Portions that follow each other before the wait is over are one dose.
    /// </summary>
    /// <param name="standing">What stands in the log book, in order of time.</param>
    /// <param name="now">Now, UTC.</param>
    public static IEnumerable<PastDose> In(IReadOnlyList<SessionEntry> standing, DoseKind kind, DateTimeOffset now)
    {
        var disturbing = standing.Select((entry, index) => (Entry: entry, Index: index)).Where(one => Disturbs(one.Entry)).ToList();
        for (var first = 0; first < disturbing.Count; first++)
        {
            if (kind.Grams(disturbing[first].Entry) is not { } grams)
            {
                continue;
            }

            var last = first;
            while (last + 1 < disturbing.Count && disturbing[last + 1].Entry is var next && next.At.Utc - disturbing[last].Entry.At.Utc < kind.Wait && kind.Grams(next) is { } more)
            {
                grams += more;
                last++;
            }

            if (Quiet(disturbing, first, last, kind, now) is var (before, after))
            {
                yield return new(disturbing[first].Index, grams, before, after);
            }

            first = last;
        }
    }

    private static (Span Before, Span After)? Quiet(List<(SessionEntry Entry, int Index)> disturbing, int first, int last, DoseKind kind, DateTimeOffset now)
    {
        var (begin, end) = (disturbing[first].Entry.At.Utc, disturbing[last].Entry.At.Utc + kind.Wait);
        var previous = first > 0 ? disturbing[first - 1].Entry : null;
        var free = previous is null ? DateTimeOffset.MinValue : previous.At.Utc + (kind.Grams(previous) is null ? Recovery : kind.Wait);
        var until = last + 1 < disturbing.Count ? disturbing[last + 1].Entry.At.Utc : now;
        var (before, after) = (new Span(TimeMath.Max(begin - Averaged, free), begin), new Span(end, TimeMath.Min(end + Averaged, until)));
        return previous?.Kind != EntryKind.DipIn && before.Length >= Least && after.Length >= Least ? (before, after) : null;
    }

    private static bool Disturbs(SessionEntry entry) => entry.Kind is EntryKind.Added or EntryKind.DrawnOff or EntryKind.MadeAnew or EntryKind.DipIn or EntryKind.DipOut;

    /// <summary>A stretch of time, UTC.</summary>
    internal readonly record struct Span(DateTimeOffset From, DateTimeOffset To)
    {
        public TimeSpan Length => To - From;
    }
}
