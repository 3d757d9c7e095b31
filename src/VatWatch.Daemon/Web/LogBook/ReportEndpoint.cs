using VatWatch.Charts;
using VatWatch.Charts.Reports;
using VatWatch.Pipeline;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>The report of a session as a file: <c>/vats/{vat}/sessions/{id}/report.{html|pdf|png|svg|csv}</c>.</summary>
internal static class ReportEndpoint
{
    /// <summary>The endings there are, in the order of a page's buttons.</summary>
    public static IReadOnlyList<string> Endings { get; } = [.. DrawnFiles.Endings, "csv"];

    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/vats/{vat}/sessions/{id}/report.{ending}", AnswerAsync).ExcludeFromDescription();

    private static async Task<IResult> AnswerAsync(
        string vat, string id, string ending, HttpContext context, [Service] DrawnFiles files, [Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        if (!SessionId.TryParse(id, out var session) || feed.Vats.FirstOrDefault(live => live.Definition.Id.Value == vat)?.Definition is not { } definition)
        {
            return TypedResults.NotFound();
        }

        return await files.AnswerAsync(context, ending, $"{vat}-{session}", (reader, options, stream) =>
        {
            if (StoredRecord.OfSession(reader, definition, site.Units, session) is not { } record)
            {
                return false;
            }

            new ReportWriter(options).Write(record, $"report.{ending}", stream);
            return true;
        });
    }
}
