using VatWatch.Charts;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;
using VatWatch.Sessions;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>The report of a session as a file: <c>/vats/{vat}/sessions/{id}/report.{html|pdf|png|svg|csv}</c>; <c>?size=phone</c> draws a narrow picture.</summary>
internal sealed class ReportEndpoint(StoreWindow store, ILiveFeed feed, SiteFacts site) : IDisposable
{
    private static readonly Dictionary<string, string> Types = new(StringComparer.Ordinal)
    {
        ["html"] = "text/html; charset=utf-8",
        ["pdf"] = "application/pdf",
        ["png"] = "image/png",
        ["svg"] = "image/svg+xml",
        ["csv"] = "text/csv; charset=utf-8",
    };

    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(15);

    // One at a time: each takes tens of megabytes while it lasts, and the board may be small.
    private readonly SemaphoreSlim _pen = new(1);

    /// <summary>The endings there are, in the order of a page's buttons.</summary>
    public static IReadOnlyList<string> Endings { get; } = ["html", "pdf", "png", "svg", "csv"];

    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes
        .MapGet("/vats/{vat}/sessions/{id}/report.{ending}", (string vat, string id, string ending, HttpContext context, [Service] ReportEndpoint report) => report.AnswerAsync(vat, id, ending, context))
        .ExcludeFromDescription();

    /// <inheritdoc/>
    public void Dispose() => _pen.Dispose();

    private async Task<IResult> AnswerAsync(string vat, string id, string ending, HttpContext context)
    {
        if (!Types.TryGetValue(ending, out var type) || !SessionId.TryParse(id, out var session)
            || feed.Vats.FirstOrDefault(live => live.Definition.Id.Value == vat)?.Definition is not { } definition)
        {
            return TypedResults.NotFound();
        }

        if (!await _pen.WaitAsync(LongestWait, context.RequestAborted))
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }

        try
        {
            return await WriteAsync(definition, session, ending, type, context);
        }
        finally
        {
            _pen.Release();
        }
    }

    private async Task<IResult> WriteAsync(VatDefinition vat, SessionId id, string ending, string type, HttpContext context)
    {
        var (ok, file) = await store.TryReadAsync(
            reader =>
            {
                if (StoredRecord.OfSession(reader, vat, site.Units, id) is not { } record)
                {
                    return null;
                }

                var options = new ReportOptions { Zone = feed.Clock.Provider.LocalTimeZone, Chart = context.Request.Query["size"] == "phone" ? ChartSize.Phone : ChartSize.Page };
                using var written = new MemoryStream();
                new ReportWriter(options).Write(record, $"report.{ending}", written);
                return written.ToArray();
            },
            LongestWait,
            context.RequestAborted);
        if (file is null)
        {
            return TypedResults.StatusCode(ok ? StatusCodes.Status404NotFound : StatusCodes.Status503ServiceUnavailable);
        }

        context.Response.Headers.ContentSecurityPolicy = SecurityHeaders.DrawingPolicy;
        context.Response.Headers.CacheControl = "private, max-age=15";
        var name = ending is "pdf" or "csv" ? $"{vat.Id}-{id}.{ending}" : null;
        return TypedResults.File(file, type, name);
    }
}
