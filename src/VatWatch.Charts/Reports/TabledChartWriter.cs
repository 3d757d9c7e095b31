using System.Net;
using System.Text;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports.Html;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Reports;

/// <summary>Writes a <see cref="TabledChart"/> as picture, page or paper, by the extension of the file name.</summary>
internal static class TabledChartWriter
{
    private const float Edge = 16;
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>The extensions that there are, for a sentence.</summary>
    public const string FormatsText = ".html, .pdf, .png or .svg";

    /// <summary>Writes a file. It appears under its name only when it is whole.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    public static void Write(TabledChart chart, ReportOptions options, PaperSize paper, string path)
    {
        var write = Writing(chart, options, paper, path);
        WholeFile.Write(path, write);
    }

    /// <summary>Writes to a stream, which is left open, in the format of <paramref name="fileName"/>'s extension.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    public static void Write(TabledChart chart, ReportOptions options, PaperSize paper, string fileName, Stream stream) => Writing(chart, options, paper, fileName)(stream);

    private static Action<Stream> Writing(TabledChart chart, ReportOptions options, PaperSize paper, string fileName)
    {
        var size = options.Chart.IsNarrow ? chart.Phone : options.Chart;
        return Path.GetExtension(fileName).ToLowerInvariant() switch
        {
            ".html" => stream => stream.Write(Utf8.GetBytes(Html(chart))),
            ".svg" => stream => stream.Write(Utf8.GetBytes(options.Dark ? NightInks.Recolour(Svg(chart, size, standsAlone: true)) : Svg(chart, size, standsAlone: true))),
            ".png" => stream => PngPicture.Write(size, canvas => chart.Draw(canvas, size, true), stream),
            ".pdf" => stream => WritePdf(chart, options.Paper ?? paper, stream),
            _ => throw new UnknownReportFormatException(Path.GetFileName(fileName), FormatsText),
        };
    }

    public static string Svg(TabledChart chart, ChartSize size, bool standsAlone, string idPrefix = "") =>
        SvgPicture.Of(size, canvas => chart.Draw(canvas, size, standsAlone), chart.Title, standsAlone, idPrefix);

    public static string Html(TabledChart chart)
    {
        var page = new StringBuilder();
        var title = WebUtility.HtmlEncode(OneLine.Of(chart.Title));
        HtmlPage.Begin(page, title, title, WebUtility.HtmlEncode(OneLine.Of(chart.Below)));
        HtmlPage.Figures(page, Svg(chart, ChartSize.Page, standsAlone: false, "wide-"), Svg(chart, chart.Phone, standsAlone: false, "narrow-"));
        foreach (var table in chart.Tables)
            HtmlTable.Append(page, table, "None.");
        return HtmlPage.End(page, ReportText.Caution);
    }

    private static void WritePdf(TabledChart chart, PaperSize paper, Stream stream) => PdfPages.Write(
        stream,
        paper,
        chart.Title,
        (canvas, height) => chart.Draw(canvas, ChartSize.Page with { Height = (int)height }, true),
        (canvas, height) => DrawTables(chart, canvas, height));

    private static void DrawTables(TabledChart chart, SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        using var lettering = new Lettering(canvas);
        lettering.Write(Lettering.Fit(OneLine.Of(chart.Title), width - 2 * Edge, text * 1.4f, bold: true), Edge, text * 1.5f, text * 1.4f, Inks.Indigo, bold: true);
        var y = text * 2.4f;
        foreach (var table in chart.Tables)
            y += PdfTable.Draw(lettering, table, Edge, y, width - 2 * Edge, height - text * 2 - y, text) + text * 0.8f;
        lettering.Write(ReportText.Caution, Edge, height - text * 0.4f, text * 0.85f, Inks.Faint);
    }
}
