using SkiaSharp;
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

    private const int Quality = 82;

    /// <summary>The record with the photographs that its entries name; one that cannot be read is left out.</summary>
    public static VatRecord AddTo(VatRecord record, StoreReader reader)
    {
        var photos = record.Standing.Where(entry => entry.Kind == EntryKind.Photo && (record.Session is not { } session || entry.Session == session.Id)).Take(Most)
            .Select(entry => EntryTable.PhotoOf(reader, record.Vat.Id, entry.Id) is { } kept && TryShrink(kept.Bytes) is var (jpeg, width, height)
                ? new ReportPhoto(entry.At.Utc, entry.Text ?? "", jpeg, width, height)
                : null);
        return record with { Photos = [.. photos.OfType<ReportPhoto>()] };
    }

    private static (byte[] Jpeg, int Width, int Height)? TryShrink(byte[] bytes)
    {
        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null || codec.Info.Width < 1 || codec.Info.Height < 1)
            return null;

        // A camera's picture is read at the nearest smaller size its format has, or it would take fifty megabytes of a small board.
        var scale = Math.Min(1, (float)LongSide / Math.Max(codec.Info.Width, codec.Info.Height));
        var near = codec.GetScaledDimensions(scale);
        using var read = new SKBitmap(new SKImageInfo(near.Width, near.Height, SKColorType.Rgba8888, SKAlphaType.Premul));
        if (codec.GetPixels(read.Info, read.GetPixels()) is not (SKCodecResult.Success or SKCodecResult.IncompleteInput))
            return null;
        scale = Math.Min(1, (float)LongSide / Math.Max(read.Width, read.Height));
        var turned = codec.EncodedOrigin is SKEncodedOrigin.RightTop or SKEncodedOrigin.LeftBottom or SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightBottom;
        var (width, height) = ((int)Math.Max(1, read.Width * scale), (int)Math.Max(1, read.Height * scale));
        using var upright = new SKBitmap(turned ? height : width, turned ? width : height);
        using (var canvas = new SKCanvas(upright))
        {
            canvas.Clear(SKColors.White);
            Turn(canvas, codec.EncodedOrigin, upright.Width, upright.Height);
            using var image = SKImage.FromBitmap(read);
            canvas.DrawImage(image, new SKRect(0, 0, width, height), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        }

        using var jpeg = upright.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return (jpeg.ToArray(), upright.Width, upright.Height);
    }

    // Exif orientation, as cameras write it: how the picture must be turned to stand upright.
    private static void Turn(SKCanvas canvas, SKEncodedOrigin origin, float width, float height)
    {
        switch (origin)
        {
            case SKEncodedOrigin.RightTop:
                canvas.Translate(width, 0);
                canvas.RotateDegrees(90);
                break;
            case SKEncodedOrigin.BottomRight:
                canvas.Translate(width, height);
                canvas.RotateDegrees(180);
                break;
            case SKEncodedOrigin.LeftBottom:
                canvas.Translate(0, height);
                canvas.RotateDegrees(270);
                break;
            case SKEncodedOrigin.TopRight:
                canvas.Translate(width, 0);
                canvas.Scale(-1, 1);
                break;
            case SKEncodedOrigin.BottomLeft:
                canvas.Translate(0, height);
                canvas.Scale(1, -1);
                break;
            case SKEncodedOrigin.LeftTop:
                canvas.RotateDegrees(90);
                canvas.Scale(1, -1);
                break;
            case SKEncodedOrigin.RightBottom:
                canvas.Translate(width, height);
                canvas.RotateDegrees(90);
                canvas.Scale(-1, 1);
                break;
        }
    }
}
