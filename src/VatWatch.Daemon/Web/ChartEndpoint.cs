using System.Globalization;
using VatWatch.Daemon.Web.Security;
using VatWatch.Vats;

namespace VatWatch.Daemon.Web;

/// <summary>The chart of a vat as a picture for an <c>img</c> element: <c>/vats/{vat}/chart.svg?hours=8&amp;look=dark</c>.</summary>
internal sealed class ChartEndpoint(IChartSource charts, TimeProvider time) : IDisposable
{
    /// <summary>Hours shown when the address names none: a night.</summary>
    public const int DefaultHours = 8;

    private const int MostHours = 7 * 24;
    private static readonly TimeSpan LongestDrawing = TimeSpan.FromSeconds(15);

    // One drawing at a time: each takes tens of megabytes while it lasts, and the board may be small.
    private readonly SemaphoreSlim _pen = new(1);

    /// <summary>Adds the route.</summary>
    public static void Map(IEndpointRouteBuilder routes) =>
        routes.MapGet("/vats/{vat}/chart.svg", (string vat, HttpContext context, [Service] ChartEndpoint chart) => chart.DrawAsync(vat, context)).ExcludeFromDescription();

    /// <summary>Hours of an address: 1 to 168, anything else is the default.</summary>
    public static int HoursOf(HttpRequest request) =>
        int.TryParse(request.Query["hours"], NumberStyles.None, CultureInfo.InvariantCulture, out var hours) && hours is >= 1 and <= MostHours ? hours : DefaultHours;

    /// <inheritdoc/>
    public void Dispose() => _pen.Dispose();

    private async Task<IResult> DrawAsync(string vat, HttpContext context)
    {
        using var deadline = new CancellationTokenSource(LongestDrawing, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, deadline.Token);
        var hasPen = false;
        try
        {
            await _pen.WaitAsync(either.Token);
            hasPen = true;
            var span = TimeSpan.FromHours(HoursOf(context.Request));
            if (await charts.DrawAsync(new VatId(vat), span, context.Request.Query["look"] == "dark", either.Token) is not { } svg)
            {
                return TypedResults.NotFound();
            }

            context.Response.Headers.ContentSecurityPolicy = SecurityHeaders.DrawingPolicy;
            context.Response.Headers.CacheControl = "private, max-age=15";
            return TypedResults.Bytes(svg, "image/svg+xml");
        }
        catch (OperationCanceledException) when (!context.RequestAborted.IsCancellationRequested)
        {
            return TypedResults.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }
        finally
        {
            if (hasPen)
            {
                _pen.Release();
            }
        }
    }
}
