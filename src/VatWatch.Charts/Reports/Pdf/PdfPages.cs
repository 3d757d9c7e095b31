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
