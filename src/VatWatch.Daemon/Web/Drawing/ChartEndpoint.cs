using VatWatch.Daemon.Web.Security;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>The chart of a vat as a picture for an <c>img</c> element: <c>/vats/{vat}/chart.svg?hours=8&amp;look=dark</c>.</summary>
internal sealed class ChartEndpoint(IChartSource charts, ILiveFeed feed, DrawingPen pen, TimeProvider time)
{
    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/vats/{vat}/chart.svg", (string vat, HttpContext context, [Service] ChartEndpoint chart) => chart.DrawAsync(vat, context)).ExcludeFromDescription();

    private async Task<IResult> DrawAsync(string vat, HttpContext context)
    {
        using var hold = await pen.TryTakeAsync(context.RequestAborted);
        if (hold is null)
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }

        using var deadline = new Deadline(DrawingPen.Longest, time, context.RequestAborted);
        try
        {
            ChartRange.TryRead(context.Request.Query, feed.Clock.Zone, out var range);
            if (await charts.DrawAsync(new VatId(vat), range, context.Request.Query["look"] == "dark", deadline.Token) is not { } svg)
            {
                return TypedResults.NotFound();
            }

            context.Response.Headers.ContentSecurityPolicy = SecurityHeaders.DrawingPolicy;
            context.Response.Headers.CacheControl = "private, max-age=15";
            return TypedResults.Bytes(svg, "image/svg+xml");
        }
        catch (StoreUnavailableException)
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }
        catch (OperationCanceledException) when (!context.RequestAborted.IsCancellationRequested)
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }
    }
}
