using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Panels;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Compare;

/// <summary>The chart of sessions over each other: told apart by the pattern of the line, by time since the first dip.</summary>
internal static class OverlayChart
{
    public static void Draw(SessionOverlay overlay, string title, string below, ChartSize size, SKCanvas canvas, bool withTitle)
    {
        var record = overlay.Together;
        var frame = new ChartFrame(size, new TimeWindow(record.From, record.To, TimeZoneInfo.Utc) { Zero = SessionOverlay.Zero });
        using var lettering = Lettering.OnPaper(canvas, size);
        var top = withTitle ? ChartTitle.Draw(frame, lettering, title, below) : 0;
        top += DrawDips(overlay, frame, lettering, top);
        var bottom = size.Height - ChartFoot.Height(frame, KeyEntries.Suspect | KeyEntries.Fault);
        var panels = ValuePanels.Of(record, ProbeTrace.Of(record), overlay.Margins).Select(panel => panel with { HatchGaps = false }).ToArray();
        var (entries, areas) = PanelStack.Draw(panels, null, frame, record, lettering, new PixelRect(0, size.Width, bottom, top));
        DrawZero(canvas, frame, areas);
        ChartFoot.Draw(frame, lettering, bottom, entries);
    }

    /// <summary>Height of the lanes of dips, units.</summary>
    public static float DipsHeight(SessionOverlay overlay, ChartSize size) => size.TextSize * (1.7f + 1.6f * overlay.Dips.Count);

    private static float DrawDips(SessionOverlay overlay, ChartFrame frame, Lettering lettering, float top)
    {
        var size = frame.Size.TextSize;
        var data = frame.DataArea(PixelRect.Zero);
        lettering.Write("Dips", frame.Left, top + size * 1.15f, size * 1.1f, Inks.Text, bold: true);
        for (var i = 0; i < overlay.Dips.Count; i++)
        {
            var (name, dips) = overlay.Dips[i];
            var middle = top + size * (2.3f + 1.6f * i);
            DipBars.Draw(lettering, frame, dips, middle, size * 1.05f);
            var first = dips.Count > 0 ? frame.XOf(dips[0].In.Utc) : data.Right;
            var words = Lettering.Fit(name, Math.Max(first - data.Left - 34, size * 6), size);
            KeyLine.Draw(lettering.Canvas, data.Left, middle, 24, Patterns.ChiefLine(i));
            lettering.WriteOnPaper(words, data.Left + 29, middle + size * 0.34f, size, Inks.Text);
        }

        return DipsHeight(overlay, frame.Size);
    }

    private static void DrawZero(SKCanvas canvas, ChartFrame frame, IReadOnlyList<PixelRect> panels)
    {
        using var paint = new SKPaint { IsStroke = true, StrokeWidth = 1, Color = Inks.Slate.ToSKColor(), IsAntialias = true };
        var x = frame.XOf(SessionOverlay.Zero);
        foreach (var panel in panels)
            canvas.DrawLine(x, panel.Top, x, panel.Bottom, paint);
    }
}
