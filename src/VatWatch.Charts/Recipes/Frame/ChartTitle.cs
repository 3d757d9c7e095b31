using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Recipes.Frame;

/// <summary>The head of a chart: the vat's name, and below it the span or what else it shows, fitted to the width of the chart.</summary>
internal static class ChartTitle
{
    /// <summary>Draws at the top of the canvas.</summary>
    /// <returns>Its height, units.</returns>
    public static float Draw(ChartFrame frame, Lettering lettering, string name, string below)
    {
        var text = frame.Size.TextSize;
        var (nameSize, lineHeight, width) = (text * 1.75f, text * 1.4f, frame.Right - frame.Left);
        lettering.Write(Lettering.Fit(OneLine.Of(name), width, nameSize, bold: true), frame.Left, nameSize * 1.3f, nameSize, Inks.Indigo, bold: true);
        var lines = Lettering.Wrap(OneLine.Of(below), width, text * 1.05f);
        for (var i = 0; i < lines.Count; i++)
            lettering.Write(lines[i], frame.Left, nameSize * 1.3f + (i + 1) * lineHeight + 2, text * 1.05f, Inks.Faint);
        return nameSize * 1.45f + lines.Count * lineHeight + text * 0.4f;
    }
}
