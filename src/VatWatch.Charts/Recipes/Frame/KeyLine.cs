using ScottPlot;
using SkiaSharp;

namespace VatWatch.Charts.Recipes.Frame;

/// <summary>A short piece of a line, or a dot, for a key.</summary>
internal static class KeyLine
{
    /// <summary>Draws <paramref name="length"/> units of <paramref name="style"/> to the right of a point.</summary>
    public static void Draw(SKCanvas canvas, float x, float y, float length, LineStyle style)
    {
        using var effect = style.Pattern.GetPathEffect();
        using var paint = new SKPaint
        {
            Color = style.Color.ToSKColor(),
            StrokeWidth = style.Width,
            IsStroke = true,
            IsAntialias = true,
            PathEffect = effect,
        };
        using var path = new SKPath();
        path.MoveTo(x, y);
        path.LineTo(x + length, y);
        canvas.DrawPath(path, paint);
    }

    /// <summary>Draws a dot around a point, for values that stand alone.</summary>
    public static void DrawDot(SKCanvas canvas, float x, float y, float radius, Color ink)
    {
        using var paint = new SKPaint { Color = ink.ToSKColor(), IsAntialias = true };
        canvas.DrawCircle(x, y, radius, paint);
    }
}
