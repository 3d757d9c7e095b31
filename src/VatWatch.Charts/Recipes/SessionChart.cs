using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;
using VatWatch.Vats;

namespace VatWatch.Charts.Recipes;

/// <summary>
/// The chart of a session: temperature, heater, pH, ORP and alarms of one vat above one time axis. Draws the same on any canvas; it needs no
/// font or display of the machine. Thread safe.
/// </summary>
public static class SessionChart
{
    /// <summary>The chart as a PNG picture of <see cref="ChartSize.PixelWidth"/> by <see cref="ChartSize.PixelHeight"/> pixels.</summary>
    /// <param name="record">What to draw.</param>
    /// <param name="zone">Zone of the time axis.</param>
    /// <param name="size">Page or phone.</param>
    /// <param name="stream">Where to; left open.</param>
    public static void WritePng(VatRecord record, TimeZoneInfo zone, ChartSize size, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(size);
        using var surface = SKSurface.Create(new SKImageInfo(size.PixelWidth, size.PixelHeight, SKColorType.Rgba8888, SKAlphaType.Premul));
        surface.Canvas.Scale(size.PixelsPerUnit);
        Draw(record, zone, size, surface.Canvas);
        using var image = surface.Snapshot();
        using var png = image.Encode(SKEncodedImageFormat.Png, 100);
        png.SaveTo(stream);
    }

    /// <summary>The chart as a stand-alone SVG picture with real text and the font inside.</summary>
    /// <param name="record">What to draw.</param>
    /// <param name="zone">Zone of the time axis.</param>
    /// <param name="size">Page or phone.</param>
    public static string Svg(VatRecord record, TimeZoneInfo zone, ChartSize size)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(size);
        return SvgPicture.Of(size, canvas => Draw(record, zone, size, canvas), $"Chart of {record.Vat.Name}", standsAlone: true);
    }

    /// <summary>The chart as SVG to be placed in a page that has the font and names vat and span itself.</summary>
    internal static string SvgForPage(VatRecord record, TimeZoneInfo zone, ChartSize size, string idPrefix) => SvgPicture.Of(
        size, canvas => Draw(record, zone, size, canvas, withTitle: false), $"Chart of {record.Vat.Name}", standsAlone: false, idPrefix);

    /// <summary>Draws the chart at the upper left of a canvas whose unit is that of <paramref name="size"/>.</summary>
    internal static void Draw(VatRecord record, TimeZoneInfo zone, ChartSize size, SKCanvas canvas, bool withTitle = true)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(zone);
        var frame = new ChartFrame(size, new TimeWindow(record.From, record.To, zone));
        using var lettering = new Lettering(canvas);
        using (var paper = new SKPaint { Color = Inks.Paper.ToSKColor() })
            canvas.DrawRect(0, 0, size.Width, size.Height, paper);

        var traces = ProbeTrace.Of(record);
        var title = new ChartTitle(frame, record.Vat.Name);
        var lanes = new AlarmLanes(frame, AlarmEpisodes.Of(record.AlarmChanges));
        if (withTitle)
            title.Draw(lettering);

        // The foot is given room for every key entry; what does not occur leaves a little air.
        var bottom = size.Height - ChartFoot.Height(frame, PossibleEntries(record)) - lanes.Height;
        var (entries, panels) = DrawPanels(record, traces, frame, lettering, new PixelRect(0, size.Width, bottom, withTitle ? title.Height : 0));
        lanes.DrawEnteringLines(canvas, panels);
        entries |= lanes.Draw(lettering, bottom);
        ChartFoot.Draw(frame, lettering, bottom + lanes.Height, entries);
    }

    private static KeyEntries PossibleEntries(VatRecord record) =>
        (record.AlarmChanges.Count > 0 ? KeyEntries.Alarm : KeyEntries.None) | KeyEntries.NoReadings | KeyEntries.Fault | KeyEntries.Suspect;

    private static (KeyEntries Entries, IReadOnlyList<PixelRect> Panels) DrawPanels(
        VatRecord record, IReadOnlyList<ProbeTrace> traces, ChartFrame frame, Lettering lettering, PixelRect area)
    {
        const float between = 4;
        var panels = ValuePanels.Of(record, traces);
        var heater = traces.FirstOrDefault(trace => trace.Measures == Measures.Heater);
        var heaterHeight = heater is null ? 0 : HeaterStrip.Height(frame.Size) + between;
        var unit = (area.Height - heaterHeight - between * (panels.Count - 1)) / panels.Sum(panel => panel.Weight);
        var (top, entries, drawn) = (area.Top, KeyEntries.None, new List<PixelRect>());
        foreach (var panel in panels)
        {
            var bottom = top + unit * panel.Weight;
            var place = new PixelRect(0, frame.Size.Width, bottom, top);
            entries |= ValuePanelDrawing.Draw(panel, frame, record, lettering, place);
            drawn.Add(frame.ValueArea(place));
            top = bottom + between;
            if (panel != panels[0] || heater is null)
                continue;
            entries |= HeaterStrip.Draw(heater, frame, record, lettering, new PixelRect(0, frame.Size.Width, top + heaterHeight - between, top));
            top += heaterHeight;
        }

        return (entries, drawn);
    }
}
