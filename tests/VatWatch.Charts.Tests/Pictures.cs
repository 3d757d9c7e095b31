using SkiaSharp;

namespace VatWatch.Charts.Tests;

/// <summary>Picture files.</summary>
public static class Pictures
{
    /// <summary>Dark blue, red on its left quarter.</summary>
    public static byte[] Of(int width, int height, SKEncodedImageFormat format)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.DarkBlue);
            using var red = new SKPaint { Color = SKColors.Red };
            canvas.DrawRect(0, 0, width / 4f, height, red);
        }

        using var data = bitmap.Encode(format, 90);
        return data.ToArray();
    }

    /// <summary>The same with an APP1 segment of one tag: Exif orientation (0x0112) 6, "the 0th row is the right-hand side" (Exif 2.3, 4.6.4).</summary>
    public static byte[] HeldUpright(byte[] jpeg)
    {
        byte[] exif =
        [
            0xFF, 0xE1, 0x00, 0x22, .. "Exif\0\0"u8, .. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0, 0, 0, 0, 0,
        ];
        return [.. jpeg[..2], .. exif, .. jpeg[2..]];
    }
}
