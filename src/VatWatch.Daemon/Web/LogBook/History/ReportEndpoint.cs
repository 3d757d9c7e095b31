using VatWatch.Charts;
using VatWatch.Charts.Reports;
using VatWatch.Daemon.Web.Drawing;
using VatWatch.Pipeline;
using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.LogBook.History;

/// <summary>The report of a session as a file: <c>/vats/{vat}/sessions/{id}/report.{html|pdf|png|svg|csv}</c>.</summary>
internal static class ReportEndpoint
{
    /// <summary>The endings there are, in the order of a page's buttons.</summary>
    public static IReadOnlyList<string> Endings { get; } = [.. DrawnFiles.Endings, "csv"];

    /// <summary>Value of <c>?span=</c> for the session without the night before it.</summary>
    public const string AloneSpan = "session";

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/vats/{vat}/sessions/{id}/report.{ending}", AnswerAsync).ExcludeFromDescription();

    private static async Task<IResult> AnswerAsync(
        string vat, string id, string ending, HttpContext context, [Service] DrawnFiles files, [Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        if (!SessionId.TryParse(id, out var session) || feed.Find(vat)?.Definition is not { } definition)
        {
            return TypedResults.NotFound();
        }

        return await files.AnswerAsync(context, ending, $"{vat}-{session}", (reader, options, stream) =>
        {
            if (Record(reader) is not { } record)
            {
                return false;
            }

            new ReportWriter(options).Write(ending is "html" or "pdf" ? ReportPhotos.AddTo(record, reader) : record, $"report.{ending}", stream);
            return true;
        });

        VatRecord? Record(StoreReader reader) => context.Request.Query["span"] == AloneSpan
            ? StoredRecord.OfSessionAlone(reader, definition, site.Units, session)
            : StoredRecord.OfSession(reader, definition, site.Units, session);
    }
}
