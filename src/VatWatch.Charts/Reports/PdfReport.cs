using SkiaSharp;
using VatWatch.Charts.Recipes;

namespace VatWatch.Charts.Reports;

/// <summary>The report on one printed page: the chart, and below it the figures, alarms and gaps in two columns. Text is real text.</summary>
internal static class PdfReport
{
    private const float Margin = 36; // points: half an inch, which any printer can do

    /// <summary>Writes the page to <paramref name="stream"/>, which is left open.</summary>
    public static void Write(VatRecord record, ReportOptions options, Stream stream)
    {
        var paper = options.Paper ?? (record.Units.IsUs ? PaperSize.Letter : PaperSize.A4);
        var figures = new SessionFigures(record, options.Zone);
        var metadata = SKDocumentPdfMetadata.Default;
        metadata.Title = OneLine.Of($"{record.Vat.Name}, {figures.Span}");
        metadata.Creator = "VatWatch";
        using var buffered = new MemoryStream();
        using (var document = SKDocument.CreatePdf(buffered, metadata))
        {
            using var canvas = document.BeginPage(paper.Width, paper.Height);
            // The page is laid out in the units of the chart, which is as wide as the space between the margins.
            var pointsPerUnit = (paper.Width - 2 * Margin) / ChartSize.Page.Width;
            canvas.Translate(Margin, Margin);
            canvas.Scale(pointsPerUnit);
            DrawPage(record, options, figures, canvas, (paper.Height - 2 * Margin) / pointsPerUnit);
            document.EndPage();
            document.Close();
        }

        buffered.Position = 0;
        buffered.CopyTo(stream);
    }

    private static void DrawPage(VatRecord record, ReportOptions options, SessionFigures figures, SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        const float between = 28;
        const float edge = 16;
        var columnWidth = (width - 2 * edge - between) / 2;
        var footer = text * 2;
        // The chart is never pressed below this share of the page; what then does not fit the columns is counted instead of shown.
        var most = height * 0.4f - footer;
        var left = new PdfColumn(columnWidth, text, most);
        left.Add("Figures", "Nothing was recorded.", [.. figures.Figures.Select(row => (row.Label, row.Value))]);
        var right = new PdfColumn(columnWidth, text, most);
        right.Add("Alarms", "No alarm entered.", [.. figures.Alarms.Select(AlarmLine)], share: 0.65f);
        right.Add("Time without readings", "Every probe read all the time.", [.. figures.Gaps.Select(GapLine)]);
        if (figures.ShortGaps > 0)
            right.AddLine(ReportWords.ShortGaps(figures.ShortGaps));

        var top = height - footer - Math.Max(left.Height, right.Height);
        SessionChart.Draw(record, options.Zone, new ChartSize((int)width, (int)top, 1, text), canvas);
        using var lettering = new Lettering(canvas);
        left.Draw(lettering, edge, top);
        right.Draw(lettering, edge + columnWidth + between, top);
        var words = $"{figures.Vat} · Times are {figures.Zone}. {ReportWords.Caution}";
        lettering.Write(Lettering.Fit(words, width - 2 * edge, text * 0.85f), edge, height - text * 0.4f, text * 0.85f, Inks.Faint);
    }

    private static (string, string) AlarmLine(AlarmRow row) => ($"{row.Alarm} ({row.Priority})", $"{row.Entered}; {row.Acknowledged}; {row.Ended}");

    private static (string, string) GapLine(GapRow row) =>
        ($"{row.Probe}: {row.What}", $"{row.From} – {row.To}, {row.Length}");
}
