using System.Net;
using System.Text;
using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports.Html;
using VatWatch.Charts.Reports.Pdf;

namespace VatWatch.Charts.Reports;

/// <summary>A chart of more than one session, with its tables, as picture, page or paper. Thread safe.</summary>
public sealed record TabledChart
{
    private const float Edge = 16;
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>The extensions that there are, for a sentence.</summary>
    public const string FormatsText = ".html, .pdf, .png or .svg";

    /// <summary>What it is about.</summary>
    public required string Title { get; init; }

    /// <summary>One line below the title.</summary>
    public required string Below { get; init; }

    /// <summary>Draws the chart in a size, with or without the title.</summary>
    public required Action<SKCanvas, ChartSize, bool> Draw { get; init; }

    public required IReadOnlyList<ReportTable> Tables { get; init; }

    /// <summary>The size on a telephone.</summary>
    public required ChartSize Phone { get; init; }

    /// <summary>The paper of a document where none is asked for.</summary>
    public required PaperSize Paper { get; init; }

    /// <summary>Writes a file. It appears under its name only when it is whole.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    public void Write(string path, ReportOptions options)
    {
        var write = Writing(options, path);
        WholeFile.Write(path, write);
    }

    /// <summary>Writes to a stream, which is left open, in the format of <paramref name="fileName"/>'s extension.</summary>
    /// <exception cref="UnknownReportFormatException">The extension is none of <see cref="FormatsText"/>.</exception>
    public void Write(string fileName, ReportOptions options, Stream stream) => Writing(options, fileName)(stream);

    private Action<Stream> Writing(ReportOptions options, string fileName)
    {
        var size = options.Chart.IsNarrow ? Phone : options.Chart;
        return Path.GetExtension(fileName).ToLowerInvariant() switch
        {
            ".html" => stream => stream.Write(Utf8.GetBytes(Html())),
            ".svg" => stream => stream.Write(Utf8.GetBytes(options.Dark ? NightInks.Recolour(Svg(size)) : Svg(size))),
            ".png" => stream => PngPicture.Write(size, canvas => Draw(canvas, size, true), stream),
            ".pdf" => stream => WritePdf(options.Paper ?? Paper, stream),
            _ => throw new UnknownReportFormatException(Path.GetFileName(fileName), FormatsText),
        };
    }

    public string Svg(ChartSize size) => Svg(size, standsAlone: true, "");

    private string Svg(ChartSize size, bool standsAlone, string idPrefix) =>
        SvgPicture.Of(size, canvas => Draw(canvas, size, standsAlone), Title, standsAlone, idPrefix);

    /// <summary>Chart and tables as one page that needs nothing else.</summary>
    public string Html()
    {
        var page = new StringBuilder();
        var title = WebUtility.HtmlEncode(OneLine.Of(Title));
        HtmlPage.Begin(page, title, title, WebUtility.HtmlEncode(OneLine.Of(Below)));
        HtmlPage.Figures(page, Svg(ChartSize.Page, standsAlone: false, "wide-"), Svg(Phone, standsAlone: false, "narrow-"));
        foreach (var table in Tables)
        {
            HtmlTable.Append(page, table, "None.");
        }

        return HtmlPage.End(page, ReportText.Caution);
    }

    private void WritePdf(PaperSize paper, Stream stream) => PdfPages.Write(
        stream,
        paper,
        Title,
        (canvas, height) => Draw(canvas, ChartSize.Page with { Height = (int)height }, true),
        (canvas, height) => DrawTables(canvas, height));

    private void DrawTables(SKCanvas canvas, float height)
    {
        var (width, text) = ((float)ChartSize.Page.Width, ChartSize.Page.TextSize);
        using var lettering = new Lettering(canvas);
        lettering.Write(Lettering.Fit(OneLine.Of(Title), width - 2 * Edge, text * 1.4f, bold: true), Edge, text * 1.5f, text * 1.4f, Inks.Indigo, bold: true);
        var y = text * 2.4f;
        foreach (var table in Tables)
        {
            y += PdfTable.Draw(lettering, table, Edge, y, width - 2 * Edge, height - text * 2 - y, text) + text * 0.8f;
        }

        lettering.Write(ReportText.Caution, Edge, height - text * 0.4f, text * 0.85f, Inks.Faint);
    }
}

/// <summary>A table of a report, in words.</summary>
/// <param name="Columns">Heads of the columns; the first column names the row.</param>
/// <param name="Rows">As many cells as there are columns in each.</param>
public sealed record ReportTable(string Heading, IReadOnlyList<string> Columns, IReadOnlyList<string[]> Rows)
{
    /// <summary>A sentence below it; null for none.</summary>
    public string? Note { get; init; }
}
