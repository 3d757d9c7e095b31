using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;

namespace VatWatch.Charts.Reports.Pdf;

/// <summary>Writes PDF documents whose pages are laid out in the units of the chart, which is as wide as the space between the margins.</summary>
internal static class PdfPages
{
    private const float Margin = 36; // points: half an inch, which any printer can do

    /// <summary>Writes the pages; each is told its canvas and the height that there is, units. The stream is left open.</summary>
    public static void Write(Stream stream, PaperSize paper, string title, params ReadOnlySpan<Action<SKCanvas, float>> pages)
    {
        var metadata = SKDocumentPdfMetadata.Default;
        metadata.Title = OneLine.Of(title);
        metadata.Creator = "VatWatch";
        using var buffered = new MemoryStream();
        using (var document = SKDocument.CreatePdf(buffered, metadata))
        {
            var pointsPerUnit = (paper.Width - 2 * Margin) / ChartSize.Page.Width;
            foreach (var draw in pages)
            {
                using var canvas = document.BeginPage(paper.Width, paper.Height);
                canvas.Translate(Margin, Margin);
                canvas.Scale(pointsPerUnit);
                draw(canvas, (paper.Height - 2 * Margin) / pointsPerUnit);
                document.EndPage();
            }

            document.Close();
        }

        buffered.Position = 0;
        buffered.CopyTo(stream);
    }
}

/// <summary>Size of a printed page, points of 1/72 inch.</summary>
public sealed record PaperSize(float Width, float Height)
{
    /// <summary>210 mm by 297 mm (ISO 216).</summary>
    public static PaperSize A4 { get; } = new(595.28f, 841.89f);

    /// <summary>8.5 in by 11 in (ANSI/ASME Y14.1 size A).</summary>
    public static PaperSize Letter { get; } = new(612, 792);

    /// <summary>Letter with US units, A4 with SI.</summary>
    internal static PaperSize UsualWith(DisplayUnits units) => units.IsUs ? Letter : A4;
}
