using ScottPlot;
using SkiaSharp;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Panels;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes;

/// <summary>
/// The chart of a session: temperature, heater, pH, ORP and alarms of one vat above one time axis. Draws the same on any canvas; it needs no
/// font or display of the machine. Thread safe.
/// </summary>
public static class SessionChart
{
    /// <summary>The chart as a PNG picture of <see cref="ChartSize.PixelWidth"/> by <see cref="ChartSize.PixelHeight"/> pixels.</summary>
    /// <param name="record">What to draw.</param>
    /// <param name="size">Page or phone.</param>
    /// <param name="stream">Where to; left open.</param>
    public static void WritePng(VatRecord record, TimeZoneInfo zone, ChartSize size, Stream stream)
    {
        PngPicture.Write(size, canvas => Draw(record, zone, size, canvas), stream);
    }

    /// <summary>The chart as a stand-alone SVG picture with real text and the font inside.</summary>
    /// <param name="record">What to draw.</param>
    /// <param name="size">Page or phone.</param>
    public static string Svg(VatRecord record, TimeZoneInfo zone, ChartSize size)
    {
        return SvgPicture.Of(size, canvas => Draw(record, zone, size, canvas), $"Chart of {record.Vat.Name}", standsAlone: true);
    }

    /// <summary>The chart as SVG to be placed in a page that has the font and names vat and span itself.</summary>
    internal static string SvgForPage(VatRecord record, TimeZoneInfo zone, ChartSize size, string idPrefix) => SvgPicture.Of(
        size, canvas => Draw(record, zone, size, canvas, withTitle: false), $"Chart of {record.Vat.Name}", standsAlone: false, idPrefix);

    /// <summary>Draws the chart at the upper left of a canvas whose unit is that of <paramref name="size"/>.</summary>
    internal static void Draw(VatRecord record, TimeZoneInfo zone, ChartSize size, SKCanvas canvas, bool withTitle = true)
    {
        var frame = new ChartFrame(size, new TimeWindow(record.From, record.To, zone));
        using var lettering = Lettering.OnPaper(canvas, size);

        var traces = ProbeTrace.Of(record);
        var below = string.Join(" · ", new[] { SessionHead.Of(record), frame.Window.SpanText() }.OfType<string>());
        var lanes = new AlarmLanes(frame, AlarmEpisodes.Of(record.AlarmChanges));
        var (ribbon, log) = (new StateRibbon(frame, record), new EntryLane(frame, record));
        var top = withTitle ? ChartTitle.Draw(frame, lettering, record.Vat.Name, below) : 0;
        ribbon.Draw(lettering, top);
        log.Draw(lettering, top + ribbon.Height);
        top += ribbon.Height + log.Height;

        // The foot is given room for every key entry; what does not occur leaves a little air.
        var bottom = size.Height - ChartFoot.Height(frame, PossibleEntries(record)) - log.KeyHeight - lanes.Height;
        var heater = traces.FirstOrDefault(trace => trace.Quantity == Quantity.Heater);
        var (entries, panels) = PanelStack.Draw(ValuePanels.Of(record, traces), heater, frame, record, lettering, new PixelRect(0, size.Width, bottom, top));
        log.DrawThrough(canvas, panels);
        lanes.DrawEnteringLines(canvas, panels);
        entries |= lanes.Draw(lettering, bottom);
        ChartFoot.Draw(frame, lettering, bottom + lanes.Height, entries);
        log.DrawKey(lettering, size.Height - log.KeyHeight);
    }

    /// <summary>A narrow size made as much higher as this record has more to show than readings and alarms; a page stays a page.</summary>
    internal static ChartSize Grown(VatRecord record, ChartSize size)
    {
        if (!size.IsNarrow)
            return size;
        var frame = new ChartFrame(size, new TimeWindow(record.From, record.To, TimeZoneInfo.Utc));
        var (ribbon, log) = (new StateRibbon(frame, record), new EntryLane(frame, record));
        var margin = MarginTrace.Of(record) is null ? 0 : MarginPanelHeight;
        return size with { Height = (int)Math.Ceiling(size.Height + ribbon.Height + log.Height + log.KeyHeight + margin) };
    }

    // Units; about the height of the other panels of a telephone.
    private const float MarginPanelHeight = 120;

    private static KeyEntries PossibleEntries(VatRecord record) =>
        (record.AlarmChanges.Count > 0 ? KeyEntries.Alarm : KeyEntries.None) | KeyEntries.NoReadings | KeyEntries.Fault | KeyEntries.Suspect;
}
