using System.Diagnostics.CodeAnalysis;
using SkiaSharp;

namespace VatWatch.Charts.Reports;

/// <summary>
/// A picture drawn afresh as an upright JPEG. Nothing of the file that came is in it but what is to be seen: no place where it was taken, and no page or program
/// that a file can be besides being a picture.
/// </summary>
/// <param name="Bytes">The file.</param>
/// <param name="Width">Width, pixels.</param>
/// <param name="Height">Height, pixels.</param>
public sealed record UprightJpeg(byte[] Bytes, int Width, int Height)
{
    /// <summary>Most pixels that a picture may have: more than a phone's camera makes. A small file can claim any number.</summary>
    public const int MostPixels = 50_000_000;

    /// <summary>Most pixels of a picture that is held whole while it is unpacked: at most 128 MB of them. Only a JPEG that is <see cref="JpegRows">in rows</see> is unpacked smaller than it is.</summary>
    private const int MostUnpacked = 16_000_000;

    private const int Quality = 85;

    /// <summary>Draws it from a JPEG, PNG or WebP file. The file's dimensions are read, and refused, before anything is unpacked.</summary>
    /// <param name="file">The file, from where the stream stands; can be searched.</param>
    /// <param name="longSide">Most pixels of the longer side; a smaller picture keeps its size.</param>
    /// <param name="whyNot">Why there is none, as a clause.</param>
    public static bool TryMake(Stream file, int longSide, [NotNullWhen(true)] out UprightJpeg? picture, [NotNullWhen(false)] out string? whyNot)
    {
        var isInRows = JpegRows.In(file);
        using var codec = SKCodec.Create(file);
        whyNot = WhyNot(codec, isInRows);
        picture = whyNot is null ? Draw(codec, longSide) : null;
        whyNot ??= picture is null ? "the picture is damaged or cut short; wanted a whole one" : null;
        return picture is not null;
    }

    private static string? WhyNot(SKCodec? codec, bool isInRows) => codec switch
    {
        not { EncodedFormat: SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp, Info: { Width: > 0, Height: > 0 } } =>
            "the file is no picture that can be kept; wanted JPEG, PNG or WebP",
        { Info: var info } when (long)info.Width * info.Height > MostPixels =>
            $"the picture has {info.Width:#,0} by {info.Height:#,0} pixels; wanted at most {MostPixels / 1_000_000} million in all",
        { Info: var info } when !isInRows && (long)info.Width * info.Height > MostUnpacked =>
            $"the picture has {info.Width:#,0} by {info.Height:#,0} pixels; wanted at most {MostUnpacked / 1_000_000} million of a PNG, WebP or progressive JPEG, {MostPixels / 1_000_000} million of another JPEG",
        _ => null,
    };

    private static UprightJpeg? Draw(SKCodec codec, int longSide)
    {
        // A camera's picture is read at the nearest smaller size its format has, or it would take two hundred megabytes of a small board.
        var near = codec.GetScaledDimensions(Math.Min(1, (float)longSide / Math.Max(codec.Info.Width, codec.Info.Height)));
        using var read = new SKBitmap(new SKImageInfo(near.Width, near.Height, SKColorType.Rgba8888, SKAlphaType.Premul));
        if (codec.GetPixels(read.Info, read.GetPixels()) != SKCodecResult.Success)
        {
            return null;
        }

        // Or the image below would be a copy.
        read.SetImmutable();
        var scale = Math.Min(1, (float)longSide / Math.Max(read.Width, read.Height));
        var isTurned = codec.EncodedOrigin is SKEncodedOrigin.RightTop or SKEncodedOrigin.LeftBottom or SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightBottom;
        var (width, height) = ((int)Math.Max(1, read.Width * scale), (int)Math.Max(1, read.Height * scale));
        using var upright = new SKBitmap(isTurned ? height : width, isTurned ? width : height);
        using (var canvas = new SKCanvas(upright))
        {
            canvas.Clear(SKColors.White);
            Turn(canvas, codec.EncodedOrigin, upright.Width, upright.Height);
            using var image = SKImage.FromBitmap(read);
            canvas.DrawImage(image, new SKRect(0, 0, width, height), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        }

        using var jpeg = upright.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return new UprightJpeg(jpeg.ToArray(), upright.Width, upright.Height);
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
