using VatWatch.Charts;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Reports;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>The chart of a vat as a picture, for a browser that runs no script: <c>/vats/{vat}/chart.svg?hours=8&amp;look=dark</c>.</summary>
internal static class ChartEndpoint
{
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/vats/{vat}/chart.svg", AnswerAsync).ExcludeFromDescription();

    private static async Task<IResult> AnswerAsync(string vat, HttpContext context, [Service] DrawnFiles files, [Service] ILiveFeed feed, [Service] SiteFacts site)
    {
        if (feed.Find(vat)?.Definition is not { } definition)
        {
            return TypedResults.NotFound();
        }

        ChartRange.TryRead(context.Request.Query, feed.Clock.Zone, out var range);
        return await files.AnswerAsync(context, "svg", vat, (reader, options, stream) =>
        {
            var (from, to) = ChartWindow.Of(range, reader, definition.Id, feed.Clock.Now().Utc);
            new ReportWriter(options with { Chart = ChartSize.Phone }).Write(StoredRecord.ForPicture(reader, definition, site.Units, from, to), "chart.svg", stream);
            return true;
        });
    }
}
