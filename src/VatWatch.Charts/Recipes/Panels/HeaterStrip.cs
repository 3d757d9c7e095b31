using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Marks;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>A strip that is filled while the heater draws power, hatched where that is not known.</summary>
internal static class HeaterStrip
{
    /// <summary>Height of the strip with its heading, units.</summary>
    public static float Height(ChartSize size) => size.TextSize * 2.7f;

    public static KeyEntries Draw(ProbeTrace heater, ChartFrame frame, VatRecord record, Lettering lettering, PixelRect area)
    {
        var canvas = lettering.Canvas;
        var size = frame.Size.TextSize;
        var baseline = area.Top + size * 1.15f;
        var on = OnStretches.Of(heater);
        lettering.Write("Heater", frame.Left, baseline, size * 1.1f, Inks.Text, bold: true);
        lettering.Write($"on for {DisplayUnits.Duration(on.Total)}", frame.Left + size * 4.6f, baseline, size, Inks.Faint);

        var data = frame.DataArea(new PixelRect(area.Left, area.Right, area.Bottom - 2, area.Bottom - 2 - size * 0.85f));
        using var paint = new SKPaint { IsAntialias = true, Color = Inks.Indigo.ToSKColor() };
        foreach (var (from, to) in on.Stretches)
        {
            var (left, right) = (frame.XOf(from), frame.XOf(to));
            canvas.DrawRect(left, data.Top, Math.Max(right - left, 0.6f), data.Height, paint);
        }

        var entries = KeyEntries.None;
        foreach (var outage in Outages.Of(heater, record).Where(outage => outage.IsLong))
        {
            Hatching.Draw(canvas, new SKRect(frame.XOf(outage.From), data.Top, frame.XOf(outage.To), data.Bottom), Inks.Ash);
            entries |= KeyEntries.NoReadings;
        }

        paint.IsStroke = true;
        paint.StrokeWidth = 0.8f;
        paint.Color = Inks.Ash.ToSKColor();
        canvas.DrawRect(data.Left, data.Top, data.Width, data.Height, paint);
        return entries;
    }
}
