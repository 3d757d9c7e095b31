using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Marks;

/// <summary>Runs of one trace as one broken line; a run of a single reading is a dot.</summary>
internal sealed class TraceLine(IReadOnlyList<TraceRun> runs, LineStyle style) : IPlottable
{
    private readonly List<SKRect> _covered = [];

    /// <summary>Whether the line, as rendered last, passes through a part of the canvas; in doubt, yes.</summary>
    public bool Covers(SKRect part) => _covered.Exists(segment => segment.IntersectsWithInclusive(part));

    /// <inheritdoc/>
    public bool IsVisible { get; set; } = true;

    /// <inheritdoc/>
    public IAxes Axes { get; set; } = new Axes();

    /// <inheritdoc/>
    public IEnumerable<LegendItem> LegendItems => [];

    /// <inheritdoc/>
    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    /// <inheritdoc/>
    public void Render(RenderPack rp)
    {
        _covered.Clear();
        using var path = new SKPath();
        var secondsPerColumn = (Axes.XAxis.Max - Axes.XAxis.Min) / Math.Max(1, rp.DataRect.Width);
        foreach (var run in runs)
        {
            var start = PixelOf(run.Points[0]);
            if (run.Points.Count == 1)
                DrawDot(rp, start);
            else
                path.MoveTo(start);
            var before = start;
            foreach (var point in ColumnThinning.Thin(run.Points, secondsPerColumn).Skip(1))
            {
                var next = PixelOf(point);
                path.LineTo(next);
                _covered.Add(new SKRect(before.X, Math.Min(before.Y, next.Y), next.X, Math.Max(before.Y, next.Y)));
                before = next;
            }
        }

        if (!path.IsEmpty)
            Drawing.DrawPath(rp.Canvas, rp.Paint, path, style);
    }

    private SKPoint PixelOf(TracePoint point) => new(Axes.GetPixelX(point.Seconds), Axes.GetPixelY(point.Value));

    private void DrawDot(RenderPack rp, SKPoint at)
    {
        using var dot = new SKPath();
        dot.AddCircle(at.X, at.Y, style.Width);
        Drawing.FillPath(rp.Canvas, rp.Paint, dot, new FillStyle { Color = style.Color });
        _covered.Add(new SKRect(at.X - style.Width, at.Y - style.Width, at.X + style.Width, at.Y + style.Width));
    }
}
