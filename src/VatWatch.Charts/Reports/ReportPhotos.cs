using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Charts.Reports;

/// <summary>A photograph of the log book, made small enough for a report.</summary>
/// <param name="At">When it was taken down.</param>
/// <param name="Caption">What it shows, as the dyer wrote it; may be empty.</param>
/// <param name="Jpeg">The picture, upright.</param>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
public sealed record ReportPhoto(DateTimeOffset At, string Caption, byte[] Jpeg, int Width, int Height);

/// <summary>Photographs of a session as a report holds them: upright, at most <see cref="LongSide"/> pixels, and no more than <see cref="Most"/>.</summary>
public static class ReportPhotos
{
    /// <summary>Pixels of the longer side: sharp at half the width of a printed page.</summary>
    public const int LongSide = 1000;

    /// <summary>Three sheets; more make a file that no mail takes.</summary>
    public const int Most = 18;

    /// <summary>The record with the photographs that its entries name; one that cannot be read is left out.</summary>
    public static VatRecord AddTo(VatRecord record, StoreReader reader)
    {
        var photos = record.Standing.Where(entry => entry.Kind == EntryKind.Photo && (record.Session is not { } session || entry.Session == session.Id)).Take(Most)
            .Select(entry => EntryTable.PhotoOf(reader, record.Vat.Id, entry.Id) is { } kept && UprightJpeg.TryMake(new MemoryStream(kept.Bytes), LongSide, out var picture, out _)
                ? new ReportPhoto(entry.At.Utc, entry.Text ?? "", picture.Bytes, picture.Width, picture.Height)
                : null);
        return record with { Photos = [.. photos.OfType<ReportPhoto>()] };
    }
}
