using ScottPlot;
using SkiaSharp;

namespace VatWatch.Charts.Recipes.Marks;

/// <summary>Slanting lines over a stretch of time, as plain strokes: a pattern fill would become a picture in SVG and PDF.</summary>
internal sealed class Hatching(double fromSeconds, double toSeconds, Color ink) : IPlottable
{
    private const float Spacing = 7;

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        var left = Math.Max(Axes.GetPixelX(fromSeconds), rp.DataRect.Left);
        var right = Math.Min(Axes.GetPixelX(toSeconds), rp.DataRect.Right);
        var area = new SKRect(left, rp.DataRect.Top, Math.Max(right, left + 1), rp.DataRect.Bottom);
        Draw(rp.Canvas, area, ink);
    }

    public static void Draw(SKCanvas canvas, SKRect area, Color ink)
    {
        using var path = new SKPath();
        // Lines x + y = k·Spacing, cut to the area by hand, so that neighbouring stretches share one grid and nothing needs a clip.
        var first = MathF.Ceiling((area.Left + area.Top) / Spacing) * Spacing;
        for (var sum = first; sum < area.Right + area.Bottom; sum += Spacing)
        {
            var startX = Math.Max(area.Left, sum - area.Bottom);
            var endX = Math.Min(area.Right, sum - area.Top);
            if (endX <= startX)
                continue;
            path.MoveTo(startX, sum - startX);
            path.LineTo(endX, sum - endX);
        }

        using var paint = new SKPaint { Color = ink.ToSKColor(), StrokeWidth = 0.8f, IsStroke = true, IsAntialias = true };
        canvas.DrawPath(path, paint);
    }
}
