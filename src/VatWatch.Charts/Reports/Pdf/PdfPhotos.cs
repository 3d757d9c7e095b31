using SkiaSharp;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports.Content;

namespace VatWatch.Charts.Reports.Pdf;

/// <summary>A sheet of photographs on paper, two beside each other, each with its time and what it shows.</summary>
internal static class PdfPhotos
{
    private const float Edge = 16;
    private const float Between = 20;
    private const int Columns = 2;
    private const int Rows = 3;

    /// <summary>So many fit on a sheet.</summary>
    public const int OnOnePage = Columns * Rows;

    /// <summary>Draws a sheet.</summary>
    /// <param name="photos">At most <see cref="OnOnePage"/>.</param>
    /// <param name="figures">For the words.</param>
    /// <param name="height">Height of the page, units.</param>
    public static void Draw(IReadOnlyList<ReportPhoto> photos, SessionFigures figures, SKCanvas canvas, float height)
    {
        var text = ChartSize.Page.TextSize;
        using var lettering = new Lettering(canvas);
        lettering.Write("Photographs", Edge, text * 1.5f, text * 1.4f, Inks.Indigo, bold: true);
        var top = text * 2.6f;
        var (cellWidth, cellHeight) = ((ChartSize.Page.Width - 2 * Edge - (Columns - 1) * Between) / Columns, (height - top) / Rows);
        for (var i = 0; i < photos.Count; i++)
        {
            var (photo, x, y) = (photos[i], Edge + i % Columns * (cellWidth + Between), top + i / Columns * cellHeight);
            var scale = Math.Min(cellWidth / photo.Width, (cellHeight - text * 2.6f) / photo.Height);
            using var image = SKImage.FromEncodedData(photo.Jpeg);
            canvas.DrawImage(image, new SKRect(x, y, x + photo.Width * scale, y + photo.Height * scale), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
            lettering.Write(Lettering.Fit(OneLine.Of(figures.Caption(photo)), cellWidth, text), x, y + photo.Height * scale + text * 1.4f, text, Inks.Text);
        }
    }
}
