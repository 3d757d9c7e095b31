using System.Globalization;

namespace VatWatch.Store.Archive;

/// <summary>One calendar month (UTC) of one vat: what one archive file holds.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Number">Year × 100 + month, such as 203103.</param>
internal readonly record struct ArchiveMonth(VatId Vat, int Number)
{
    /// <summary>Ending of the files.</summary>
    public const string Ending = ".parquet";

    /// <summary>The month that holds a moment.</summary>
    public static ArchiveMonth Of(VatId vat, DateTimeOffset moment) => new(vat, moment.UtcDateTime.Year * 100 + moment.UtcDateTime.Month);

    /// <summary>Its first moment.</summary>
    public DateTimeOffset From => new(Number / 100, Number % 100, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The first moment after it.</summary>
    public DateTimeOffset To => Number == LastNumber ? DateTimeOffset.MaxValue : From.AddMonths(1);

    /// <summary>Name of its file: <c>madder-lane-2031-03.parquet</c>.</summary>
    public string FileName => $"{Vat}-{Number / 100:0000}-{Number % 100:00}{Ending}";

    /// <summary>The month of a file of that name; null for any other file.</summary>
    public static ArchiveMonth? Parse(string fileName)
    {
        if (!fileName.EndsWith(Ending, StringComparison.Ordinal) || fileName.Length <= Ending.Length + MonthLength)
        {
            return null;
        }

        var stem = fileName[..^Ending.Length];
        var (vat, month) = (stem[..^MonthLength], stem[^MonthLength..]);
        return DateTime.TryParseExact(month, "'-'yyyy'-'MM", CultureInfo.InvariantCulture, DateTimeStyles.None, out var first)
            ? new ArchiveMonth(new VatId(vat), first.Year * 100 + first.Month)
            : null;
    }

    private const int LastNumber = 999912;
    private const int MonthLength = 8;
}
