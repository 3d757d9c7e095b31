using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Sessions;

namespace VatWatch.Charts.Recipes;

/// <summary>Dips as bars along the time axis, from in to out, numbered from 1.</summary>
internal static class DipBars
{
    /// <summary>Draws the bars around <paramref name="middle"/>. Yarn that is still in reaches to the end of the chart.</summary>
    public static void Draw(Lettering lettering, ChartFrame frame, IReadOnlyList<Dip> dips, float middle, float height)
    {
        var size = frame.Size.TextSize * 0.9f;
        using var paint = new SKPaint { Color = Inks.Indigo.ToSKColor(), IsAntialias = true };
        for (var i = 0; i < dips.Count; i++)
        {
            var (left, right) = Span(frame, dips[i]);
            if (right < left)
                continue;
            lettering.Canvas.DrawRect(left, middle - height / 2, right - left, height, paint);
            var number = Words.Number(i + 1, 0);
            var width = Lettering.Width(number, size, bold: true);
            if (width + 2 <= right - left)
                lettering.Write(number, (left + right) / 2, middle + size * 0.36f, size, Inks.Paper, bold: true, SKTextAlign.Center);
            else if (i + 1 == dips.Count || frame.XOf(dips[i + 1].In.Utc) > right + width + 3)
                lettering.Write(number, right + 1.5f, middle + size * 0.36f, size, Inks.Text);
        }
    }

    /// <summary>Shades the panels' data while yarn was in, lightly: the readings stay in front.</summary>
    public static void Shade(SKCanvas canvas, ChartFrame frame, IReadOnlyList<Dip> dips, IReadOnlyList<PixelRect> panels)
    {
        using var paint = new SKPaint { Color = Inks.Indigo.WithAlpha(.10).ToSKColor(), IsAntialias = true };
        foreach (var dip in dips)
        {
            var (left, right) = Span(frame, dip);
            foreach (var panel in panels.Where(_ => right >= left))
                canvas.DrawRect(left, panel.Top, right - left, panel.Height, paint);
        }
    }

    // Nothing of a dip outside the window is drawn: its right edge comes out left of its left one.
    private static (float Left, float Right) Span(ChartFrame frame, Dip dip)
    {
        var end = dip.Out?.Utc ?? frame.Window.To;
        if (end < frame.Window.From || dip.In.Utc > frame.Window.To)
            return (0, -1);
        var left = frame.XOf(dip.In.Utc);
        return (left, Math.Max(frame.XOf(end), left + 1.5f));
    }
}
