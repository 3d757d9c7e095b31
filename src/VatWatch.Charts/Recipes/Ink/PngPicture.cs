using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Recipes.Ink;

/// <summary>Records drawing as PNG.</summary>
internal static class PngPicture
{
    /// <summary>Writes a picture of <see cref="ChartSize.PixelWidth"/> by <see cref="ChartSize.PixelHeight"/> pixels; the stream is left open.</summary>
    public static void Write(ChartSize size, Action<SKCanvas> draw, Stream stream)
    {
        using var surface = SKSurface.Create(new SKImageInfo(size.PixelWidth, size.PixelHeight, SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Scale(size.PixelsPerUnit);
        draw(surface.Canvas);
        using var image = surface.Snapshot();
        using var png = image.Encode(SKEncodedImageFormat.Png, 100);
        png.SaveTo(stream);
    }
}
