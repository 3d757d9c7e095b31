using ScottPlot;
using ScottPlot.TickGenerators;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Marks;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>Draws one <see cref="ValuePanel"/>: heading with key, frame, band, levels, lines, outages and labels.</summary>
internal static class ValuePanelDrawing
{
    private const float DotRadius = 3;

    /// <summary>Pixels across; more than a page or a screen has.</summary>
    private const double FinestPicture = 4000;

    /// <summary>Draws into <paramref name="area"/>, whose upper strip takes the heading.</summary>
    /// <returns>Which kinds of outage and doubt were drawn, for the key at the foot of the chart.</returns>
    public static KeyEntries Draw(ValuePanel panel, ChartFrame frame, VatRecord record, Lettering lettering, PixelRect area)
    {
        var canvas = lettering.Canvas;
        var size = frame.Size.TextSize;
        var data = frame.ValueArea(area);
        DrawHeading(panel, frame, lettering, data);

        var (low, high) = panel.Range();
        using var plot = frame.NewPlot();
        plot.Axes.SetLimitsY(low, high);
        plot.Axes.SetLimitsY(low, high, plot.Axes.Right);
        var most = Math.Clamp((int)(data.Height / (size * 2.1f)), 2, 8);
        // A number at the very top would lie in the heading.
        var top = high - (high - low) * Math.Min(0.2, size * 0.5 / data.Height);
        plot.Axes.Left.TickGenerator = Ticks(panel.Scale.Marks(low, top, most));
        plot.Axes.Right.TickGenerator = Ticks(panel.OtherScale?.Marks(low, top, most) ?? []);

        AddBackground(plot, panel);
        var entries = AddTraces(plot, panel, frame.Window, record);
        frame.Render(plot, canvas, data);
        DrawLabels(plot, panel, lettering, data, size);
        return entries;
    }

    private static NumericManual Ticks(IReadOnlyList<(double Canonical, string Label)> marks) =>
        new([.. marks.Select(mark => mark.Canonical)], [.. marks.Select(mark => mark.Label)]);

    private static void AddBackground(Plot plot, ValuePanel panel)
    {
        if (panel.Band is { } band)
        {
            var span = plot.Add.VerticalSpan(band.Low, band.High, Inks.Linen);
            span.LineStyle.Width = 0;
        }

        foreach (var level in panel.Levels)
            plot.Add.HorizontalLine(level.Value, 1.5f, level.Ink, level.Pattern);
    }

    private static KeyEntries AddTraces(Plot plot, ValuePanel panel, TimeWindow window, VatRecord record)
    {
        var entries = KeyEntries.None;
        if (panel.Traces.Count > 0)
            entries |= AddOutages(plot, Outages.Of(panel.Traces[0], record), window, hatch: panel.HatchGaps);
        foreach (var trace in panel.Traces.Skip(1).Concat(panel.Lesser))
            entries |= AddOutages(plot, Outages.Of(trace, record), window, hatch: false);
        for (var i = 0; i < panel.Lesser.Count; i++)
            entries |= AddLine(plot, panel.Lesser[i], window, Patterns.LesserLine(i));
        for (var i = panel.Traces.Count - 1; i >= 0; i--)
            entries |= AddLine(plot, panel.Traces[i], window, Patterns.ChiefLine(i));
        return entries;
    }

    // Only the chief trace hatches the panel: a silent room thermometer must not look like a silent vat.
    private static KeyEntries AddOutages(Plot plot, IReadOnlyList<Outage> outages, TimeWindow window, bool hatch)
    {
        var entries = KeyEntries.None;
        var faults = outages.Where(outage => outage.Kind == OutageKind.Fault)
            .Select(outage => (window.SecondsAt(outage.From), window.SecondsAt(outage.To))).ToArray();
        foreach (var (from, to) in Joined(outages.Where(outage => hatch && outage.IsLong && outage.Kind != OutageKind.Fault), window))
        {
            plot.Add.Plottable(new Hatching(from, to, Inks.Ash));
            entries |= KeyEntries.NoReadings;
        }

        if (faults.Length == 0)
            return entries;
        plot.Add.Plottable(new FaultMarks(faults, Inks.Madder));
        return entries | KeyEntries.Fault;
    }

    // Stretches nearer to each other than any picture can show are hatched as one.
    private static List<(double From, double To)> Joined(IEnumerable<Outage> outages, TimeWindow window)
    {
        var joined = new List<(double From, double To)>();
        var near = window.Seconds / FinestPicture;
        foreach (var outage in outages)
        {
            var (from, to) = (window.SecondsAt(outage.From), window.SecondsAt(outage.To));
            if (joined.Count > 0 && from - joined[^1].To < near)
                joined[^1] = (joined[^1].From, Math.Max(joined[^1].To, to));
            else
                joined.Add((from, to));
        }

        return joined;
    }

    private static KeyEntries AddLine(Plot plot, ProbeTrace trace, TimeWindow window, LineStyle style)
    {
        var runs = TraceRuns.Of(trace, window.From).ToLookup(run => run.Suspect);
        // A dot is as wide as the line twice over; a value that stands alone must be seen from arm's length.
        var seen = trace.IsSingle ? new LineStyle(DotRadius, style.Color) : style;
        plot.Add.Plottable(new TraceLine([.. runs[false]], seen));
        if (!runs[true].Any())
            return KeyEntries.None;
        plot.Add.Plottable(new TraceLine([.. runs[true]], Patterns.DoubtfulLine));
        return KeyEntries.Suspect;
    }

    private static void DrawHeading(ValuePanel panel, ChartFrame frame, Lettering lettering, PixelRect data)
    {
        var size = frame.Size.TextSize;
        var baseline = data.Top - size * 0.55f;
        var (left, right) = (frame.Left, frame.Right);
        var entries = panel.Traces.Select((trace, i) => (trace, Patterns.ChiefLine(i)))
            .Concat(panel.Lesser.Select((trace, i) => (trace, Patterns.LesserLine(i))));
        var heading = Lettering.Fit(panel.Heading, right - left, size * 1.1f, bold: true);
        lettering.Write(heading, left, baseline, size * 1.1f, Inks.Text, bold: true);
        var x = left + Lettering.Width(heading, size * 1.1f, bold: true) + size * 0.6f;
        var unit = (panel.Scale.Unit, panel.OtherScale?.Unit) switch
        {
            ("", _) => "",
            (var own, null) => own,
            var (own, other) => $"{own} (right: {other})",
        };
        if (x + Lettering.Width(unit, size) <= right)
        {
            lettering.Write(unit, x, baseline, size, Inks.Faint);
            x += Lettering.Width(unit, size) + size;
        }

        DrawKey([.. entries], lettering, x, right, baseline, size * 0.95f);
    }

    // Ends at the right; where not all names fit, the chief trace's stays longest.
    private static void DrawKey(
        IReadOnlyList<(ProbeTrace Trace, LineStyle Style)> entries, Lettering lettering, float left, float right, float baseline, float size)
    {
        const float sample = 22;
        float WidthOf(string name) => sample + 4 + Lettering.Width(name, size) + size * 1.4f;

        var fitting = new List<(string Name, LineStyle Style, bool IsSingle)>();
        foreach (var (trace, style) in entries)
        {
            var room = right - left - fitting.Sum(entry => WidthOf(entry.Name));
            var name = Lettering.Fit(trace.Probe.Value, room - WidthOf(""), size);
            if (name.Length == 0)
                break;
            fitting.Add((name, style, trace.IsSingle));
        }

        var x = right - fitting.Sum(entry => WidthOf(entry.Name)) + size * 1.4f;
        foreach (var (name, style, isSingle) in fitting)
        {
            if (isSingle)
                KeyLine.DrawDot(lettering.Canvas, x + sample - DotRadius, baseline - size * 0.33f, DotRadius, style.Color);
            else
                KeyLine.Draw(lettering.Canvas, x, baseline - size * 0.33f, sample, style);
            lettering.Write(name, x + sample + 4, baseline, size, Inks.Faint);
            x += WidthOf(name);
        }
    }

    private static void DrawLabels(Plot plot, ValuePanel panel, Lettering lettering, PixelRect data, float size)
    {
        var labels = new PanelLabels(lettering, data, size * 0.92f, [.. plot.GetPlottables<TraceLine>()]);
        // Above its line a label reads as "from here up"; where the frame leaves no room, below.
        foreach (var level in panel.Levels)
        {
            var y = plot.GetPixel(new Coordinates(0, level.Value)).Y;
            labels.Write(level.Label, level.Ink, y - 4, y + size * 1.05f);
        }

        if (panel.Band is { } band)
        {
            var (low, high) = (plot.GetPixel(new Coordinates(0, band.Low)).Y, plot.GetPixel(new Coordinates(0, band.High)).Y);
            labels.Write(band.Label, Inks.Faint, low - 4, high + size * 1.05f);
        }

        if (panel.Traces.Count == 0)
            lettering.WriteOnPaper("nothing recorded", data.HorizontalCenter, data.VerticalCenter, size, Inks.Faint, SKTextAlign.Center);
    }
}
