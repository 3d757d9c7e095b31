using VatWatch.Vats;

namespace VatWatch.Daemon.Web;

/// <summary>Draws what was recorded of a vat. Thread safe; the web side asks for one drawing at a time.</summary>
internal interface IChartSource
{
    /// <summary>An SVG document of the last <paramref name="span"/>, or null when there is no such vat.</summary>
    /// <param name="vat">The vat.</param>
    /// <param name="span">How far back, 1 h to 7 days.</param>
    /// <param name="dark">For a dark page.</param>
    /// <param name="cancel">Ends the drawing.</param>
    Task<byte[]?> DrawAsync(VatId vat, TimeSpan span, bool dark, CancellationToken cancel);
}
