using VatWatch.Sessions;

namespace VatWatch.Charts.Recipes;

/// <summary>An entry that a chart marks with a letter.</summary>
/// <param name="Letter">A, B and so on.</param>
/// <param name="Entry">The entry.</param>
internal sealed record EntryMark(string Letter, SessionEntry Entry)
{
    private const int Letters = 26;

    /// <summary>The marks of a record: what was added or stirred, the lid and notes, in order of time; the first 26.</summary>
    public static IReadOnlyList<EntryMark> Of(VatRecord record) =>
    [
        .. record.Standing
            .Where(entry => entry.Kind is EntryKind.Added or EntryKind.Stirred or EntryKind.LidOff or EntryKind.LidOn or EntryKind.Note)
            .Where(entry => entry.At.Utc >= record.From && entry.At.Utc <= record.To)
            .OrderBy(entry => entry.At.Utc)
            .Take(Letters)
            .Select((entry, i) => new EntryMark(((char)('A' + i)).ToString(), entry)),
    ];
}
