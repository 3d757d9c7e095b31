using ScottPlot;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>Panels of values above one another, sharing a height by their weights.</summary>
internal static class PanelStack
{
    private const float Between = 4;

    /// <summary>Draws the panels into <paramref name="area"/>; a heater's strip goes below the first.</summary>
    /// <returns>Which marks need a word at the foot, and where the data of each panel is.</returns>
    public static (KeyEntries Entries, IReadOnlyList<PixelRect> Panels) Draw(
        IReadOnlyList<ValuePanel> panels, ProbeTrace? heater, ChartFrame frame, VatRecord record, Lettering lettering, PixelRect area)
    {
        var heaterHeight = heater is null ? 0 : HeaterStrip.Height(frame.Size) + Between;
        var unit = (area.Height - heaterHeight - Between * (panels.Count - 1)) / panels.Sum(panel => panel.Weight);
        var (top, entries, drawn) = (area.Top, KeyEntries.None, new List<PixelRect>());
        foreach (var panel in panels)
        {
            var bottom = top + unit * panel.Weight;
            var place = new PixelRect(0, frame.Size.Width, bottom, top);
            entries |= ValuePanelDrawing.Draw(panel, frame, record, lettering, place);
            drawn.Add(frame.ValueArea(place));
            top = bottom + Between;
            if (panel != panels[0] || heater is null)
                continue;
            entries |= HeaterStrip.Draw(heater, frame, record, lettering, new PixelRect(0, frame.Size.Width, top + heaterHeight - Between, top));
            top += heaterHeight;
        }

        return (entries, drawn);
    }
}
