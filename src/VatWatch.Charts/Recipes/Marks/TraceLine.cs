using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Marks;

/// <summary>Runs of one trace as one broken line; a run of a single reading is a dot.</summary>
internal sealed class TraceLine(IReadOnlyList<TraceRun> runs, LineStyle style) : IPlottable
{
    private const float MarkSize = 2;
    private readonly List<SKRect> _covered = [];

    /// <summary>Whether the line, as rendered last, passes through a part of the canvas; in doubt, yes.</summary>
    public bool Covers(SKRect part) => _covered.Exists(segment => segment.IntersectsWithInclusive(part));

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        _covered.Clear();
        using var path = new SKPath();
        var drawn = new HashSet<(int X, int Low, int High)>();
        var secondsPerColumn = (Axes.XAxis.Max - Axes.XAxis.Min) / Math.Max(1, rp.DataRect.Width);
        foreach (var run in runs)
        {
            var start = PixelOf(run.Points[0]);
            if (!drawn.Add(Place(run, start)))
                continue;
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

    // Short runs that would lie on each other are one mark; a longer run has a place of its own.
    private (int X, int Low, int High) Place(TraceRun run, SKPoint start) => PixelOf(run.Points[^1]).X - start.X >= 1
        ? (~(int)start.X, BitConverter.SingleToInt32Bits(start.X), BitConverter.SingleToInt32Bits(start.Y))
        : (Cell(start.X), Cell(Axes.GetPixelY(run.Points.Min(point => point.Value))), Cell(Axes.GetPixelY(run.Points.Max(point => point.Value))));

    private static int Cell(float pixel) => (int)(pixel / MarkSize);

    private SKPoint PixelOf(TracePoint point) => new(Axes.GetPixelX(point.Seconds), Axes.GetPixelY(point.Value));

    private void DrawDot(RenderPack rp, SKPoint at)
    {
        using var dot = new SKPath();
        dot.AddCircle(at.X, at.Y, style.Width);
        Drawing.FillPath(rp.Canvas, rp.Paint, dot, new FillStyle { Color = style.Color });
        _covered.Add(new SKRect(at.X - style.Width, at.Y - style.Width, at.X + style.Width, at.Y + style.Width));
    }
}
