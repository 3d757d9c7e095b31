using SkiaSharp;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports.Content;

namespace VatWatch.Charts.Reports.Pdf;

/// <summary>
/// The report on paper: the chart, and below it the figures, alarms and gaps in two columns on the first page; dips, log book and probes of a session
/// on a second, and its photographs behind them. Text is real text.
/// </summary>
internal static class PdfReport
{
    private const float Edge = 16;
    private const float Between = 28;

    /// <summary>Writes the pages to <paramref name="stream"/>, which is left open.</summary>
    public static void Write(VatRecord record, ReportOptions options, Stream stream)
    {
        var paper = options.Paper ?? PaperSize.UsualWith(record.Units);
        var figures = new SessionFigures(record, options.Zone);
        var title = $"{record.Vat.Name}, {figures.Span}";
        Action<SKCanvas, float>[] first = record.Standing.Any()
            ? [(canvas, height) => DrawChart(record, options, figures, canvas, height), (canvas, height) => DrawTables(record, figures, canvas, height)]
            : [(canvas, height) => DrawPage(record, options, figures, canvas, height)];
        Action<SKCanvas, float>[] photos = [.. record.Photos.Chunk(PdfPhotos.OnOnePage).Select(sheet => (Action<SKCanvas, float>)((canvas, height) => PdfPhotos.Draw(sheet, figures, canvas, height)))];
        PdfPages.Write(stream, paper, title, [.. first, .. photos]);
    }

    // A session's chart has the page to itself but for what to do next time; everything else is on the second.
    private static void DrawChart(VatRecord record, ReportOptions options, SessionFigures figures, SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        var next = new PdfColumn(width - 2 * Edge, text, height);
        next.AddSentences("For next time", figures.Suggestions);
        var top = height - text * 2 - next.Height;
        SessionChart.Draw(record, options.Zone, new ChartSize((int)width, (int)top, 1, text), canvas);
        using var lettering = new Lettering(canvas);
        next.Draw(lettering, Edge, top);
        DrawFoot(lettering, figures, height);
    }

    private static void DrawPage(VatRecord record, ReportOptions options, SessionFigures figures, SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        var columnWidth = ColumnWidth(width);
        var footer = text * 2;
        // The chart is never pressed below this share of the page; what then does not fit the columns is counted instead of shown.
        var (left, right) = Columns(figures, columnWidth, text, height * 0.4f - footer, withSuggestions: true);

        var top = height - footer - Math.Max(left.Height, right.Height);
        SessionChart.Draw(record, options.Zone, new ChartSize((int)width, (int)top, 1, text), canvas);
        using var lettering = new Lettering(canvas);
        left.Draw(lettering, Edge, top);
        right.Draw(lettering, Edge + columnWidth + Between, top);
        DrawFoot(lettering, figures, height);
    }

    private static (PdfColumn Left, PdfColumn Right) Columns(SessionFigures figures, float width, float text, float most, bool withSuggestions)
    {
        var left = new PdfColumn(width, text, most);
        left.Add("Figures", "Nothing was recorded.", [.. figures.Figures.Select(row => (row.Label, row.Value))]);
        var right = new PdfColumn(width, text, most);
        if (withSuggestions)
            right.AddSentences("For next time", figures.Suggestions);
        if (figures.SummedUp is { } how)
            right.AddSentences("Long span", [how]);
        right.Add("Alarms", "No alarm entered.", [.. figures.Alarms.Select(AlarmLine)], share: 0.8f);
        right.Add("Time without readings", "Every probe read all the time.", [.. figures.Gaps.Select(GapLine)]);
        if (figures.ShortGaps > 0)
            right.AddLine(ReportText.ShortGaps(figures.ShortGaps));
        return (left, right);
    }

    private static float ColumnWidth(float width) => (width - 2 * Edge - Between) / 2;

    private static void DrawTables(VatRecord record, SessionFigures figures, SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        using var lettering = new Lettering(canvas);
        var head = figures.Session is { } session ? $"{record.Vat.Name} · {session}" : record.Vat.Name;
        lettering.Write(Lettering.Fit(OneLine.Of(head), width - 2 * Edge, text * 1.4f, bold: true), Edge, text * 1.5f, text * 1.4f, Inks.Indigo, bold: true);
        var y = text * 2.4f;
        var (left, right) = Columns(figures, ColumnWidth(width), text, height * 0.5f, withSuggestions: false);
        left.Draw(lettering, Edge, y);
        right.Draw(lettering, Edge + ColumnWidth(width) + Between, y);
        y += Math.Max(left.Height, right.Height) + text;
        foreach (var table in figures.Tables)
            y += PdfTable.Draw(lettering, table, Edge, y, width - 2 * Edge, height - text * 2 - y, text) + text * 0.8f;
        DrawFoot(lettering, figures, height);
    }

    private static void DrawFoot(Lettering lettering, SessionFigures figures, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        var words = $"{figures.Vat} · Times are {figures.Zone}. {ReportText.Caution}";
        lettering.Write(Lettering.Fit(words, width - 2 * Edge, text * 0.85f), Edge, height - text * 0.4f, text * 0.85f, Inks.Faint);
    }

    private static (string, string) AlarmLine(AlarmRow row) => ($"{row.Alarm} ({row.Priority})", $"{row.Entered}; {row.Acknowledged}; {row.Ended}");

    private static (string, string) GapLine(GapRow row) =>
        ($"{row.Probe}: {row.What}", $"{row.From} – {row.To}, {row.Length}");
}
