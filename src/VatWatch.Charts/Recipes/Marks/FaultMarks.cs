using ScottPlot;
using SkiaSharp;

namespace VatWatch.Charts.Recipes.Marks;

/// <summary>A row of crosses at the foot of a panel where a probe reported a fault.</summary>
internal sealed class FaultMarks(IReadOnlyList<(double FromSeconds, double ToSeconds)> stretches, Color ink) : IPlottable
{
    /// <summary>Half the side of a cross, units.</summary>
    public const float Arm = 2.8f;

    private const float Spacing = 10;

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        var free = float.NegativeInfinity;
        foreach (var (from, to) in stretches)
        {
            var last = Axes.GetPixelX(to);
            for (var x = Math.Max(Axes.GetPixelX(from), free); x <= Math.Max(last, Axes.GetPixelX(from)); x += Spacing)
            {
                Draw(rp.Canvas, x, rp.DataRect.Bottom - 8, ink);
                free = x + Spacing;
            }
        }
    }

    public static void Draw(SKCanvas canvas, float x, float y, Color ink)
    {
        using var path = new SKPath();
        path.MoveTo(x - Arm, y - Arm);
        path.LineTo(x + Arm, y + Arm);
        path.MoveTo(x - Arm, y + Arm);
        path.LineTo(x + Arm, y - Arm);
        using var paint = new SKPaint { Color = ink.ToSKColor(), StrokeWidth = 1.4f, IsStroke = true, IsAntialias = true };
        canvas.DrawPath(path, paint);
    }
}
