namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Draws and sums up what was recorded of a vat. Thread safe; the web side asks for one drawing at a time.</summary>
internal interface IChartSource
{
    /// <summary>An SVG document, or null when there is no such vat.</summary>
    /// <param name="range">Which stretch.</param>
    /// <param name="dark">For a dark page.</param>
    /// <param name="cancel">Ends the drawing.</param>
    Task<byte[]?> DrawAsync(VatId vat, ChartRange range, bool dark, CancellationToken cancel);

    /// <summary>What a drawing in the browser is made from, or null when there is no such vat.</summary>
    /// <param name="range">Which stretch.</param>
    /// <param name="columns">About how many columns.</param>
    /// <param name="cancel">Ends the reading.</param>
    Task<VatTraces?> ReadAsync(VatId vat, ChartRange range, int columns, CancellationToken cancel);
}
