using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Draws from the store what a page shows or offers as a file. Thread safe.</summary>
internal sealed class DrawnFiles(StoreQueries store, DrawingPen pen, ILiveFeed feed)
{
    private static readonly Dictionary<string, string> Types = new(StringComparer.Ordinal)
    {
        ["html"] = "text/html; charset=utf-8",
        ["pdf"] = "application/pdf",
        ["png"] = "image/png",
        ["svg"] = "image/svg+xml",
        ["csv"] = "text/csv; charset=utf-8",
    };

    /// <summary>The endings of drawings with tables, in the order of a page's buttons.</summary>
    public static IReadOnlyList<string> Endings { get; } = ["html", "pdf", "png", "svg"];

    /// <summary>The file; <c>?size=phone</c> draws a narrow picture, <c>?look=dark</c> one for a dark page. 404 when <paramref name="write"/> finds nothing, 503 when the store or the pen cannot be had.</summary>
    /// <param name="ending">The ending, without its dot.</param>
    /// <param name="name">Its name without the ending, where it is kept and not looked at.</param>
    /// <param name="write">Writes it and says whether there was anything to write.</param>
    public async Task<IResult> AnswerAsync(HttpContext context, string ending, string name, Func<StoreReader, ReportOptions, Stream, bool> write)
    {
        if (!Types.TryGetValue(ending, out var type))
        {
            return TypedResults.NotFound();
        }

        var options = new ReportOptions { Zone = feed.Clock.Zone, Chart = context.Request.Query["size"] == "phone" ? ChartSize.Phone : ChartSize.Page, Dark = context.Request.Query["look"] == "dark" };
        var (ok, file) = await ReadAsync(
            reader =>
            {
                using var written = new MemoryStream();
                return write(reader, options, written) ? written.ToArray() : null;
            },
            context.RequestAborted);
        if (file is null)
        {
            return TypedResults.StatusCode(ok ? StatusCodes.Status404NotFound : StatusCodes.Status503ServiceUnavailable);
        }

        context.Response.Headers.ContentSecurityPolicy = SecurityHeaders.DrawingPolicy;
        context.Response.Headers.CacheControl = "private, max-age=15";
        return TypedResults.File(file, type, ending is "pdf" or "csv" ? $"{name}.{ending}" : null);
    }

    /// <summary>What <paramref name="read"/> gives, with the pen in hand; false when the store or the pen cannot be had now.</summary>
    public async Task<(bool Ok, T? Value)> ReadAsync<T>(Func<StoreReader, T?> read, CancellationToken cancel)
    {
        using var hold = await pen.TryTakeAsync(cancel);
        return hold is null ? (false, default) : await store.TryReadAsync(read, DrawingPen.Longest, cancel);
    }
}
